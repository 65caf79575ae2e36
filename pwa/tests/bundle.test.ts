/** A phone's bundle: whole or refused, whatever byte changed; what is no entry never reaches the store. */

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { strToU8, unzipSync, zipSync } from "fflate";
import { expect, test } from "vitest";
import { bundleOf, openBundle } from "../src/handover/bundle";
import { entryOf } from "../src/handover/shape";
import { BadBundle } from "../src/handover/zip";
import type { Entry } from "../src/kit/api";

const SAMPLE = new URL("../../sample_reports/thornquell-2026/", import.meta.url);
const entries = readFileSync(new URL("entries.jsonl", SAMPLE), "utf8")
  .trim()
  .split("\n")
  .map((line) => JSON.parse(line) as Entry);
const digest = (bytes: Uint8Array | string) => createHash("sha256").update(bytes).digest("hex");
const JPEG = Uint8Array.of(0xff, 0xd8, 0xff, 0xe0, ...Array.from({ length: 400 }, (_, at) => (at * 37) % 251));
const photos = [{ photo: digest(JPEG), bytes: JPEG }];
const made = { made_at: "2026-06-13T08:00:00.000Z", log_id: "a log", entries, devices: [], photos };
const whole = bundleOf(made);

type Files = Record<string, Uint8Array>;

/** A plain zip of these files with a manifest that fits them. */
function packed(files: Files, change: Record<string, unknown> = {}): Uint8Array {
  const listed = Object.entries(files).map(([name, bytes]) => ({ name, sha256: digest(bytes), bytes: bytes.length }));
  const count = new TextDecoder().decode(files["entries.jsonl"]).trim().split("\n").length;
  const head = { format: "shuntbook-bundle", v: 1, made_at: "", log_id: null, entries: count, files: listed };
  const manifest = strToU8(JSON.stringify({ ...head, ...change }));
  return zipSync({ ...files, "manifest.json": manifest, "manifest.sha256": strToU8(digest(manifest)) });
}

const inside = (): Files => {
  const { "manifest.json": _, "manifest.sha256": __, ...files } = unzipSync(whole);
  return files;
};

function refusal(bytes: Uint8Array): string {
  try {
    openBundle(bytes);
  } catch (error) {
    if (error instanceof BadBundle) return error.message;
    throw error;
  }
  return "taken";
}

test("what went in comes out, the entries as the same JSON values", () => {
  const { lines, photos } = openBundle(whole);
  expect(lines.map((line) => JSON.parse(line))).toEqual(entries);
  expect(photos).toEqual([{ photo: digest(JPEG), bytes: JPEG, type: "image/jpeg" }]);
});

// First bytes as the standards have them: EBML header (RFC 8794), Ogg page (RFC 3533), file type box (ISO/IEC 14496-12).
test.each([
  ["audio/webm", [0x1a, 0x45, 0xdf, 0xa3]],
  ["audio/ogg", [0x4f, 0x67, 0x67, 0x53]],
  ["audio/mp4", [0, 0, 0, 0x1c, 0x66, 0x74, 0x79, 0x70, 0x69, 0x73, 0x6f, 0x35]],
])("a voice note comes out as %s", (type, begin) => {
  const bytes = Uint8Array.of(...begin, ...JPEG.subarray(20));
  const { photos } = openBundle(bundleOf({ ...made, photos: [{ photo: digest(bytes), bytes }] }));
  expect(photos).toEqual([{ photo: digest(bytes), bytes, type }]);
});

test("the same content gives the same bytes", () => {
  expect(bundleOf(made)).toEqual(whole);
});

test("one changed byte anywhere, each one of the file in turn, is refused", () => {
  const small = bundleOf({ ...made, entries: entries.slice(0, 2), photos: [] });
  for (let place = 0; place < small.length; place++) {
    const damaged = small.slice();
    damaged[place] = (damaged[place] as number) ^ (1 + (place % 255));
    expect(refusal(damaged), `byte ${place}`).not.toBe("taken");
  }
});

test("a file cut anywhere, or with a byte more, is refused", () => {
  for (let length = 0; length < whole.length; length += 101) expect(refusal(whole.slice(0, length))).not.toBe("taken");
  for (const cut of [1, 70, 71, 72, 93]) expect(refusal(whole.slice(0, -cut))).not.toBe("taken");
  expect(refusal(Uint8Array.of(...whole, 0))).not.toBe("taken");
});

test("a file of any zip program is taken if its manifest fits, and what is damaged in it is named", () => {
  const files = inside();
  expect(refusal(packed(files))).toBe("taken");
  const photo = `photos/${digest(JPEG)}`;
  const changed = unzipSync(packed(files));
  expect(refusal(zipSync({ ...changed, [photo]: JPEG.slice(1) }))).toContain(`${photo}: its SHA-256 does not fit`);
  const { [photo]: _, ...without } = changed;
  expect(refusal(zipSync(without))).toContain(`${photo}: is in the manifest and missing`);
  expect(refusal(zipSync({ ...changed, "devices.json": strToU8("[ ]") }))).toContain("devices.json");
  expect(refusal(zipSync({ ...changed, "manifest.sha256": strToU8("0".repeat(64)) }))).toContain("manifest.json");
});

test.each([
  [{ "../escaped": strToU8("x") }, {}, "no file of a bundle has such a name"],
  [{ "/absolute": strToU8("x") }, {}, "no file of a bundle has such a name"],
  [{ "setup/../event.toml": strToU8("x") }, {}, "no file of a bundle has such a name"],
  [{ [`photos/${"A".repeat(64)}`]: JPEG }, {}, "no file of a bundle has such a name"],
  [{ [`photos/${"a".repeat(64)}`]: JPEG }, {}, "its bytes are others"],
  [{ [`photos/${digest("no picture")}`]: strToU8("no picture") }, {}, "is no JPEG, PNG or WebP"],
  [{ "entries.jsonl": new Uint8Array(4 << 20) }, {}, "unpacks to far too much"],
  [{}, { entries: 1 }, `${entries.length} entries, the manifest says 1`],
  [{}, { v: 2 }, "A newer app may read it"],
  [{}, { format: "other" }, "reads shuntbook-bundle 1 only"],
  [{}, { files: [] }, "is not in the manifest"],
  [{}, { files: "all" }, "can't be read"],
  [{}, { files: [null] }, "can't be read"],
] as [Files, Record<string, unknown>, string][])("%o %o is refused: %s", (more, change, why) => {
  expect(refusal(packed({ ...inside(), ...more }, change))).toContain(why);
});

test("a server's bundle is taken, its set-up left to the server", () => {
  const files = {
    ...inside(),
    "setup/thornquell-2026/event.toml": strToU8("event = 1"),
    "trusted.json": strToU8("{}"),
  };
  const { lines } = openBundle(packed({ ...files, "set_aside.jsonl": strToU8("") }));
  expect(lines).toHaveLength(entries.length);
});

test("what is no zip file is refused", () => {
  for (const text of ["", "PK", "%PDF-1.7", "PK\x05\x06"]) expect(refusal(strToU8(text))).not.toBe("taken");
  expect(refusal(Uint8Array.of(0x50, 0x4b, 5, 6, ...new Uint8Array(18)))).toContain("manifest.json: is missing");
});

test("every entry of the sample event is one that the app can read", () => {
  for (const entry of entries) expect(entryOf(entry)).toBe(entry);
});

const report = entries.find((one) => one.kind === "report.filed") as Entry & { kind: "report.filed" };
const body = (data: unknown) => ({ ...report, data });

test.each([
  null,
  [],
  "text",
  { ...report, id: "e001" },
  { ...report, subject: null },
  { ...report, subject: entries.at(-1)?.id },
  { ...report, v: 2 },
  { ...report, kind: "report.shouted" },
  { ...report, kind: "toString" },
  { ...report, seq: 1.5 },
  { ...report, at: "yesterday" },
  { ...report, car: "" },
  { ...report, person: 7 },
  { ...report, sig: 7 },
  { ...report, kind: "job.finished" },
  body(null),
  body([]),
  body({ findings: [null] }),
  body({ findings: 5 }),
  body({ findings: [{ condition: "bent" }] }),
  body({ findings: [{ component: "wheel", condition: "fine" }] }),
  body({ photos: ["x"] }),
  body({ symptoms: [7] }),
  body({ direction: 13 }),
  body({ km: "far" }),
  body({ note: "x".repeat(20_000) }),
  body({ later: "x".repeat(20_000) }),
])("%j is no entry that the screens can show", (value) => {
  expect(entryOf(value)).toBeNull();
});

test("what a later app adds to an entry passes on untouched", () => {
  const later = { ...report, more: { x: 1 }, data: { ...report.data, also: ["y"], note: null } };
  expect(entryOf(later)).toBe(later);
});
