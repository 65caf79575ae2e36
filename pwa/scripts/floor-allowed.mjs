/**
 * What the built files use although the floor lacks it, or seem to: the chunks in which it may stand (names without their
 * hash), and the reason why nothing breaks.
 */

const OWN = "a method of the app's or library's own class, which only shares the name";
const HEX = "@noble/hashes asks whether the browser has it before it uses it, and has its own way";
const TOML = "smol-toml asks whether the browser has it before it uses it";
const TRUSTED = "trusted.ts asks for the factory first, and hands on plain text without it";
const SHARE = "sharing.ts asks with ?. first, and the file is saved instead";

/** @type {(chunks: string[], why: string) => { chunks: string[]; why: string }} */
const allow = (chunks, why) => ({ chunks, why });
const temporal = ["ZonedDateTime", "PlainDateTime", "PlainDate", "PlainTime", "Instant"].concat([
  "PlainYearMonth",
  "PlainMonthDay",
  "Duration",
]);

/** @type {Record<string, { chunks: string[]; why: string }>} */
export const ALLOWED = {
  ".destroy()": allow(["sw", "walk_paper", "actions", "queue"], OWN),
  ".device()": allow(["MeScreen"], OWN),
  ".released()": allow(["ServiceScreen", "actions"], OWN),
  ".drop()": allow(["RoundScreen", "SetupScreen", "VoiceNotes"], OWN),
  ".writeBuffer()": allow(["walk_paper"], OWN),
  ".toArray()": allow(["walk_paper"], OWN),
  ".getName()": allow(["walk_paper"], OWN),
  ".bytes()": allow(["walk_paper"], OWN),
  ".resize()": allow(["scanning"], OWN),
  ".take()": allow(["scanning"], OWN),
  "navigator.wakeLock": allow(["BoardScreen"], "asked for first; the wall's screen then sleeps as the system says"),
  "@page": allow(["PlanScreen"], "only the margins of a printed sheet"),
  "user-select": allow(["VoiceNotes"], "beside it stands the prefixed one"),
  ".estimate()": allow(["index"], "page.ts asks with ?. first, and the room is then not known"),
  ".getCurrentPosition()": allow(
    ["log"],
    "the data's gap for iOS is the permission's; locating.ts says that no place was had",
  ),
  "Error.captureStackTrace": allow(["browser", "web-worker"], "fflate asks for it first"),
  setImmediate: allow(["web-worker"], "asked for first; setTimeout else"),
  "globalThis.trustedTypes": allow(["index"], TRUSTED),
  ".createPolicy()": allow(["index"], TRUSTED),
  ".createScriptURL()": allow(["index"], TRUSTED),
  "navigator.share": allow(["actions"], SHARE),
  "navigator.canShare": allow(["actions"], SHARE),
  "Uint8Array.fromHex": allow(["walk_paper", "actions", "queue"], HEX),
  ".toHex()": allow(["walk_paper", "actions", "queue"], HEX),
  ".toBase64()": allow(["actions"], "qr asks for it first"),
  ".isWellFormed()": allow(["SetupScreen"], TOML),
  ".toWellFormed()": allow(["SetupScreen"], TOML),
  "globalThis.Temporal": allow(["SetupScreen"], TOML),
  Temporal: allow(["SetupScreen"], `${TOML}; toml.ts never asks it for such dates`),
  ...Object.fromEntries(temporal.map((one) => [`Temporal.${one}`, allow(["SetupScreen"], TOML)])),
};
