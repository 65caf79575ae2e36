/**
 * Measures reports as codes: node scripts/code-sizes.mjs [entries.jsonl], by default the sample event's. Prints a table
 * of bytes as JSON, bytes packed, version of the largest QR code, and how many codes it takes.
 *
 * Each entry gets a real P-256 signature first where it has none: 64 bytes that nothing can pack.
 */

import { generateKeyPairSync, sign } from "node:crypto";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import encodeQR from "qr";
import { bundled } from "./bundled.mjs";

const SAMPLE = fileURLToPath(new URL("../../sample_reports/thornquell-2026/entries.jsonl", import.meta.url));

const { privateKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });

/** @typedef {import("../src/kit/api").Entry} Entry */

/** @param {Entry & { sig?: string }} entry @returns {Entry} */
function signed(entry) {
  if (entry.sig) return entry;
  const sig = sign("sha256", Buffer.from(JSON.stringify(entry)), { key: privateKey, dsaEncoding: "ieee-p1363" });
  return { ...entry, sig: sig.toString("base64url") };
}

/** @type {{ codesOf: typeof import("../src/handover/codes").codesOf, pack: typeof import("../src/handover/packing").pack }} */
const { codesOf, pack } = await bundled({ "handover/codes.ts": ["codesOf"], "handover/packing.ts": ["pack"] });

/**
 * ISO/IEC 18004: a code of version v has 17 + 4v modules a side; 4 of white stand around it.
 *
 * @param {string} text
 */
function versionOf(text) {
  return (encodeQR(text, "raw", { ecc: "medium", encoding: "alphanumeric", border: 4 }).length - 25) / 4;
}

/** @param {string} what @param {Entry[]} entries */
function measured(what, entries) {
  const texts = codesOf(entries);
  const json = Buffer.from(JSON.stringify(entries)).length;
  const version = texts ? Math.max(...texts.map(versionOf)) : "-";
  return { what, json, packed: pack(entries).length, version, codes: texts?.length ?? "too many" };
}

const lines = readFileSync(process.argv[2] ?? SAMPLE, "utf8")
  .trim()
  .split("\n");
const all = lines.map((line) => signed(JSON.parse(line)));
const versions = all.filter((entry) => entry.kind.startsWith("report."));
const bySubject = grouped(versions, (entry) => entry.subject);
const single = versions.map((entry) => measured("", [entry])).sort((a, b) => a.packed - b.packed);
/** @param {string} what @param {typeof single[number]} row */
const named = (what, row) => ({ ...row, what });
const amended = [...bySubject.values()].filter((group) => group.length > 1);

/**
 * @template Item, Key
 * @param {Item[]} items
 * @param {(item: Item) => Key} keyOf
 * @returns {Map<Key, Item[]>}
 */
function grouped(items, keyOf) {
  const groups = new Map();
  for (const item of items) groups.set(keyOf(item), [...(groups.get(keyOf(item)) ?? []), item]);
  return groups;
}

const rows = [
  named("the shortest report", single[0]),
  named("the middle one", single[Math.floor(single.length / 2)]),
  ...single.slice(-1).map((longest) => named("the longest, with a photo's name", longest)),
  ...amended.slice(0, 1).map((group) => measured(`a report in ${group.length} versions`, group)),
  ...[3, 5, 10].map((count) => measured(`${count} reports`, versions.slice(0, count))),
  measured(`all ${versions.length} versions of ${bySubject.size} reports`, versions),
  measured(`the whole log, ${all.length} entries`, all),
];
console.log("| what | bytes as JSON | packed | QR version, level M | codes |\n|---|---:|---:|---:|---:|");
for (const { what, json, packed, version, codes } of rows) {
  console.log(`| ${what} | ${json} | ${packed} | ${version} | ${codes} |`);
}
const atVersion = [...grouped(single, (row) => row.version)].sort(([a], [b]) => Number(a) - Number(b));
console.log(
  `\nOne report in one code: ${single.filter((row) => row.codes === 1).length} of ${single.length}; versions:`,
);
console.log(atVersion.map(([version, some]) => `${version}: ${some.length}`).join(", "));
