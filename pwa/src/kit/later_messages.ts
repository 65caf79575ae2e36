/** What the app says after taps on screens that come later; by itself, so that the first screen need not load it. */

import { worded } from "./language";
import type { NotShrunk } from "./shrink";

export const laterMessages = worded("seldom", {
  photoFull: "This phone is full: the photo was not kept. Save the report without it, then make room.",
  photoNotWritten:
    "The phone could not write the photo: it was not kept. Save the report without it; make room, then try again.",
  photoNotHere:
    "This photo is not on this phone, and the server can't be reached: nothing was marked. Try again later.",
  photoGone: "A photo on this phone can't be read any more",
  photoGoneTodo: "The report was sent without it. Take the photo again if the damage is still there to be seen.",
  notShrunk: {
    unreadable: (why: string) => `This picture can't be read (${why}). Take it again as a JPEG.`,
    "no-https": () => "Photos need the https address of the server. Save the report without it.",
    "no-jpeg": () => "This browser can't make a JPEG. Save the report without the photo.",
    "no-worker": () => "The photo could not be shrunk on this phone. Save the report without it.",
  } satisfies Record<NotShrunk, (why: string) => string>,
  toldNoServer: "The server did not answer; nothing was changed. Come back with signal.",
  started: "Started.",
  stoppedWork: "Stopped.",
  patched: "Saved: a temporary repair.",
  finished: "Saved: finished.",
  deferred: "Saved: left for later.",
  corrected: "Saved: corrected.",
  jobsFinished: (n: number) => `Saved: ${n} jobs finished.`,
  inspected: (passed: number, failed: number) =>
    failed === 0
      ? `Signed: ${passed} passed.`
      : passed === 0
        ? `Signed: ${failed} not passed.`
        : `Signed: ${passed} passed, ${failed} not passed.`,
  released: (service: string) => `Saved: released from service ${service}.`,
  inService: (service: string) => `In service ${service}.`,
  outOfService: (service: string) => `Left service ${service}.`,
  retired: "Saved: the car has retired.",
  restarts: "Saved: the car restarts.",
  goesOn: "Saved: the car goes on.",
  retiredSame: "All of this is saved already. Change something first.",
  controlIn: "Saved: nobody works on it.",
  controlGone: "The car is out of the control already: nothing was saved.",
  controlOut: "Saved: out of the control.",
  askedReport: "Saved: what is not as before is a report now.",
  askedSame: "Saved: all as before.",
  asideNoServer:
    "The server did not answer, and only it holds what needs review. Come back with signal; nothing was changed.",
  noSetup: "The event's set-up is not on this phone yet: nothing was fetched.",
  noDocument: "The server did not answer, and only it makes documents. Come into its reach and tap again.",
  oneHit: "Saved: reports of one hit.",
  apart: "Saved: no longer one hit.",
  fitted: "Saved: its life counts from then.",
  fittedInspect: "Saved as a repair: it waits for an inspection.",
  partKept: "Saved: the broken part is kept.",
  inviteNoServer: "The server did not answer, and only it makes join links. Come back with signal and try again.",
  noLetters: "The paper's letters are not on this phone yet. Open the app once with signal.",
  pinNone:
    "You have no PIN on this phone yet: join again with a new link and choose one of 6 digits. Nothing was saved.",
  pinShape: "A PIN has 6 digits, such as a number that only you know. Nothing was changed.",
  gone: "This person is not on this phone any more: load the page again.",
  pinNoServer: "A first PIN is chosen just after joining, with the server there. Nothing was changed.",
  pinWait: (s: number) => `Too many wrong PINs: try again in ${s} seconds.`,
  pinWrong: (name: string, s: number) =>
    `That is not the PIN of ${name}. ${s > 0 ? `Try again in ${s} seconds.` : "Try again."} Forgotten? A manager's new join code starts afresh.`,
  planCarFirst: "Choose the car first: nothing was planned.",
  planNoServer: "The server did not answer, and only it can plan. Come back with signal; the last plan stays here.",
  taskDone: "Saved: done.",
  told: (name: string) => `Saved: ${name} was told.`,
  toldElsewhere: "This person has not joined on this phone: they acknowledge on their own. Nothing was saved.",
  ratesNoServer:
    "The server did not answer, so this phone can't tell whether the minutes are in force. Come back with signal: the screen then shows the table as it is.",
  ratesChanged: "Nothing was changed: what was shown here is out of date. Read the suggestions again: they are new.",
  reckonNoServer:
    "The server did not answer, and only it can calculate this. Come back with signal; the last answer stays.",
  seasonNobody: "Nobody has joined on this phone: nothing was changed.",
  reckonNoSetup: "The event's set-up is not on this phone yet: nothing was calculated.",
  draftNoServer: "The server did not answer. The draft is kept on this phone: come back with signal and try again.",
  statementLong:
    "This statement is too long to go out in one piece. Decide lines that are not charged first, or settle some hits by hand. Nothing was saved.",
  whoPays: "Saved: who pays for the line.",
  chargeAdded: "Saved: a charge besides damage.",
  statementIssued: (n: number) => `Saved: statement ${n} is issued.`,
  settled: (standing: "agreed" | "disputed" | "withdrawn") => `Saved: ${standing}.`,
  voiceKept: "Voice note kept.",
  voiceFull: "This phone is full: the voice note was not kept. Make room, then say it again.",
  voiceNotWritten: "The phone could not write the voice note: it was not kept. Make room, then say it again.",
  walkCarFirst: "Choose the car first: nothing was kept.",
  walkFull: "This phone is full: the last tap was not kept. Make room, then tap again.",
  walkNotWritten: "The phone could not write the last tap: it was not kept. Tap again; write it on paper if it fails.",
  walkSigned: "Signed, and kept on this phone.",
  walkLong: (marks: number, kit: number) =>
    `A walk holds at most ${marks} marks and ${kit} items. Put several marks of one place together.`,
  brakesReported: "The brakes are reported for inspection.",
  readingsSaved: (n: number) => (n === 1 ? "Saved: 1 reading." : `Saved: ${n} readings.`),
  doubt: {
    "shut-out": "The phone it comes from was blocked",
    "odd-time": "It names a year that nobody can mean",
    unsigned: "It has no signature, and this event demands one",
    "unknown-device": "No key of the phone it comes from is known here",
    "wrong-author": "Another person joined on the phone it comes from",
    "bad-signature": "The signature does not fit: it was changed or forged",
    "no-pin": "The phone it comes from joined without a PIN, and this event demands one",
    unchecked: "Signatures can't be checked on a page without https",
  },
});
