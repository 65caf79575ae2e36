/** Reports as codes: any order, doubled, with a piece missing or damaged; small enough for a phone's camera. */

import { readFileSync } from "node:fs";
import encodeQR from "qr";
import decodeQR from "qr/decode.js";
import { expect, test } from "vitest";
import { base45, fromBase45 } from "../src/handover/base45";
import { codesOf, MOST_CODES, MOST_PIECE_BYTES, openReader, type Read } from "../src/handover/codes";
import { pack, unpack } from "../src/handover/packing";
import type { Entry } from "../src/kit/api";
import { entry } from "./making";

const SAMPLE = new URL("../../sample_reports/thornquell-2026/entries.jsonl", import.meta.url);
const sample = readFileSync(SAMPLE, "utf8")
  .trim()
  .split("\n")
  .map((line) => JSON.parse(line) as Entry);
const next_byte = chance(2026);
/** A signature's 64 bytes are as good as chance, and can't be packed. */
const SIG = () => Buffer.from(Array.from({ length: 64 }, () => Math.floor(next_byte() * 256))).toString("base64url");
const reports = sample.filter((one) => one.kind.startsWith("report.")).map((one) => ({ ...one, sig: SIG() }) as Entry);

/** Numbers that come again, so that a test that failed fails again (Park and Miller, 1988). */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

function shuffled<T>(items: T[], next: () => number): T[] {
  const all = [...items];
  for (let place = all.length - 1; place > 0; place--) {
    const other = Math.floor(next() * (place + 1));
    [all[place], all[other]] = [all[other] as T, all[place] as T];
  }
  return all;
}

const textsOf = (entries: Entry[]) => codesOf(entries) as string[];

function read(texts: string[]): Read[] {
  const reader = openReader();
  return texts.map((text) => reader.take(text));
}

// RFC 9285, sections 4.3 and 4.4: the examples of encoding and decoding.
test.each([
  ["AB", "BB8"],
  ["Hello!!", "%69 VD92EX0"],
  ["base-45", "UJCLQE7W581"],
  ["ietf!", "QED8WEX0"],
])("%s is %s in base45, as the RFC says", (text, coded) => {
  expect(base45(new TextEncoder().encode(text))).toBe(coded);
  expect(new TextDecoder().decode(fromBase45(coded) ?? undefined)).toBe(text);
});

// RFC 9285, section 6: what is no base45. FGW is 65535, the next one is too much.
test.each(["GGW", "GGX", ":::", "a", "A", "AAAA", "ab8", "B_8", "::"])("%s is no base45", (text) => {
  expect(fromBase45(text)).toBeNull();
});

test("the largest value of three characters is base45", () => {
  expect(fromBase45("FGW")).toEqual(Uint8Array.of(255, 255));
});

test("the same JSON values come out of packing, with what no app knows", () => {
  const odd = {
    ...entry("report.filed", { note: "Tür \u{1f6de} \u2028" }),
    sig: SIG(),
    later: { x: [1e21, 0.1, null] },
  } as unknown as Entry;
  expect(unpack(pack([odd, ...reports]))).toEqual([odd, ...reports]);
});

/** ISO/IEC 18004: a code of version v has 17 + 4v modules a side; the drawing has 4 more of white all round. */
function versionOf(text: string): number {
  return (encodeQR(text, "raw", { ecc: "medium", encoding: "alphanumeric", border: 4 }).length - 8 - 17) / 4;
}

test("each report of the sample event, signed, fits one code of version 15 at level M", () => {
  for (const report of reports) {
    const texts = textsOf([report]);
    expect(texts).toHaveLength(1);
    expect(versionOf(texts[0] as string)).toBeLessThanOrEqual(15);
  }
});

test("a full code is of version 15 and no larger", () => {
  const long = entry("report.filed", { note: Array.from({ length: 40 }, SIG).join("") });
  const versions = textsOf([long]).map(versionOf);
  expect(Math.max(...versions)).toBe(15);
  expect(versions.length).toBe(Math.ceil(pack([long]).length / MOST_PIECE_BYTES));
});

test("a code drawn and seen again is the same text", () => {
  for (const text of textsOf(reports.slice(0, 6))) {
    const modules = encodeQR(text, "raw", { ecc: "medium", encoding: "alphanumeric", border: 4 });
    const side = modules.length * 4;
    const data = new Uint8ClampedArray(side * side * 4).fill(255);
    for (let at = 0; at < side * side; at++) {
      const dark = modules[Math.floor(at / side / 4)]?.[Math.floor((at % side) / 4)];
      if (dark) data.fill(0, at * 4, at * 4 + 3);
    }
    expect(decodeQR({ width: side, height: side, data })).toBe(text);
  }
});

test("a run is whole in any order, doubled pieces and foreign codes among them, 300 times", () => {
  const next = chance(2026);
  for (let round = 0; round < 300; round++) {
    const some = shuffled(reports, next).slice(0, 1 + Math.floor(next() * 12));
    const texts = textsOf(some);
    const doubled = shuffled([...texts, ...texts, "HTTPS://EXAMPLE.INVALID", "SB1:"], next);
    const reader = openReader();
    const seen = new Set<string>();
    let whole: Read | null = null;
    for (const text of doubled) {
      const said = reader.take(text);
      if (!texts.includes(text)) expect(said).toEqual({ read: "foreign" });
      else if (whole === null) {
        seen.add(text);
        if (said.read === "whole") whole = said;
        else expect(said).toMatchObject({ read: "piece", have: seen.size, of: texts.length });
      }
    }
    expect(seen.size).toBe(texts.length);
    expect(whole).toEqual({ read: "whole", items: some, of: texts.length });
  }
});

test("a run with a piece missing is never whole", () => {
  const texts = textsOf(reports.slice(0, 9));
  expect(texts.length).toBeGreaterThan(2);
  for (const missing of texts) {
    const rest = texts.filter((text) => text !== missing);
    const said = read([...rest, ...rest]);
    expect(said.every((one) => one.read === "piece")).toBe(true);
    expect(said.at(-1)).toEqual({ read: "piece", have: rest.length, of: texts.length, is_new: false });
  }
});

test("a changed character anywhere gives nothing, and the run is read again after it", () => {
  const next = chance(41);
  const texts = textsOf(reports.slice(0, 5));
  for (let round = 0; round < 300; round++) {
    const which = Math.floor(next() * texts.length);
    const place = 4 + Math.floor(next() * ((texts[which] as string).length - 4));
    const text = texts[which] as string;
    const other = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"[Math.floor(next() * 45)] as string;
    if (text[place] === other) continue;
    const damaged = texts.with(which, text.slice(0, place) + other + text.slice(place + 1));
    const said = read([...damaged, ...texts]);
    const wholes = said.filter((one) => one.read === "whole");
    expect(wholes.length).toBeGreaterThan(0);
    for (const one of wholes) expect(one.items).toEqual(reports.slice(0, 5));
    expect(said.slice(0, texts.length).some((one) => one.read === "whole")).toBe(false);
  }
});

test("two phones' runs read by turns come out whole each", () => {
  const [one, other] = [textsOf(reports.slice(0, 5)), textsOf(reports.slice(5, 10))];
  const said = read(one.flatMap((text, place) => [text, other[place] ?? text]).concat(other));
  const wholes = said.flatMap((read) => (read.read === "whole" ? [read.items] : []));
  expect(wholes).toContainEqual(reports.slice(0, 5));
  expect(wholes).toContainEqual(reports.slice(5, 10));
});

test("what is too much for codes is said, and a code cannot unpack to more than a run can hold", () => {
  const note = () => entry("report.filed", { note: Array.from({ length: 45 }, SIG).join("") });
  expect(codesOf(Array.from({ length: 20 }, note))).toBeNull();
  expect(MOST_CODES).toBeLessThanOrEqual(99);
  const bomb = pack([entry("report.filed", { note: "0".repeat(3 << 20) })]);
  expect(bomb.length).toBeLessThan(MOST_CODES * MOST_PIECE_BYTES);
  expect(unpack(bomb)).toBeNull();
});

test("bytes that are no packed list make no error", () => {
  const next = chance(7);
  for (let round = 0; round < 300; round++) {
    const bytes = Uint8Array.from({ length: Math.floor(next() * 200) }, () => Math.floor(next() * 256));
    expect(() => unpack(bytes)).not.toThrow();
  }
  expect(unpack(pack({} as unknown as Entry[]))).toBeNull();
});
