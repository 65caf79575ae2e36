/**
 * What reports mostly consist of, so that one packs to half: deflate may point into this text from its first byte on.
 *
 * Part of the codes' format: a change here needs another mark in codes.ts. The commonest stands last.
 */

const WORDS = [
  '"replaces":["019"],"reason":"photo.linked","photo":"","caption":"stage.nothing_seen","how":"walked-round","from-seat"',
  '"service.entered","service":"A","official_time":"09:30""caused_by":"said_at":"inspection.passed""covers":["',
  "recce shakedown regroup recovery workshop hand-over road-section service tree water roll car wear landing ditch bank",
  "leaking seized missing cracked worn loose marked unknown broken flat bent mounting cover guard arm link rack column",
  "steering-arm track-rod-end wishbone lower-arm upper-arm anti-roll-bar-link driveshaft strut damper spring subframe",
  "brake-hose brake-disc brake-caliper brake-pipes hub tyre wheel mud-flap arch-liner headlamp radiator bumper exhaust",
  "sump-guard gearbox fuel-line door sill mirror windscreen main-hoop harness seat",
  "under-middle under-front under-rear left-side right-side front-end rear-end cabin roof boot engine",
  'rear-right rear-left front-right front-left"symptoms":["pulls-left","long-pedal","noise","vibration"]',
  '"drives":"poorly","no","well","photos":["","note":"","findings":[],"zone":null,"km":null',
  '[{"id":"019e","v":1,"kind":"report.amended","event":"-2026","car":"42","kind":"report.filed","event":"-2026",',
  '"car":"41","subject":"019e","at":"2026-06-13T10:00:00+02:00","device":"d-","seq":1,"person":"p-",',
  '"data":{"stage":"SS1","km":5.1,"where":"stage","zone":"front-left","direction":12,"cause":"stone",',
  '"findings":[{"component":"wheel","condition":"bent"},{"component":"tyre","condition":"flat"}],"drives":"well"},',
  '"sig":"',
];

/** The text's bytes. */
export const DICTIONARY = new TextEncoder().encode(WORDS.join(""));
