/** Fails when the built files use what the oldest browsers of docs/browsers.md do not know, and no line allows it. */

import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { ALLOWED } from "./floor-allowed.mjs";
import { lateInScript, lateInStyle } from "./floor.mjs";

const DIST = fileURLToPath(new URL("../dist/", import.meta.url));
/** The page for older browsers is written for those. */
const PLAIN = "floor.js";

/** @type {(name: string) => Map<string, string[]>} */
function lateIn(name) {
  const text = readFileSync(DIST + name, "utf8");
  if (name.endsWith(".css")) return lateInStyle(text);
  // What older browsers are to read is written in their language, and asks for what it names.
  if (name === PLAIN) return lateInScript(text, 5, "script") && new Map();
  return lateInScript(text);
}

/** @type {(name: string) => string} */
const chunkOf = (name) => name.replace(/^assets[\\/]/, "").replace(/(-[\w-]{8})?\.(js|css)$/, "");

const names = readdirSync(DIST, { recursive: true, encoding: "utf8" }).filter((name) => /\.(js|css)$/.test(name));
const uses = names.flatMap((name) => [...lateIn(name)].map(([feature, browsers]) => ({ name, feature, browsers })));
/** @type {(use: { name: string; feature: string }) => boolean | undefined} */
const isAllowed = ({ name, feature }) => ALLOWED[feature]?.chunks.includes(chunkOf(name));
const late = uses.filter((one) => !isAllowed(one));
const idle = Object.keys(ALLOWED).filter((feature) => !uses.some((one) => one.feature === feature));
for (const { name, feature, browsers } of late) {
  console.error(`${name}: ${feature} is newer than the floor of ${browsers.join(", ")}`);
}
for (const feature of idle) console.error(`${feature} is allowed in floor-allowed.mjs and used nowhere`);
console.log(
  `${names.length} built files, ${late.length} uses of what is newer than the floor, ${uses.length - late.length} allowed`,
);
process.exit(names.length === 0 || late.length + idle.length > 0 ? 1 : 0);
