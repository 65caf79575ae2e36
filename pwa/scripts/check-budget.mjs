/**
 * Fails when the JavaScript or the styles that the first screen loads are more than the budget (gzip; lazy chunks not
 * counted), or what has to be kept before the app is ready to work without signal (as it lies, since the room on the
 * phone counts).
 */

import { readFileSync, statSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { bundled } from "./bundled.mjs";

const BUDGET_BYTES = 55_000;
const KEPT_FIRST_BYTES = 900_000;
/** Each costs a phone a request, an entry of its cache and a write, whatever its size. */
const KEPT_FIRST_FILES = 100;
const STYLE_BUDGET_BYTES = 8_000;
const DIST = fileURLToPath(new URL("../dist/", import.meta.url));

const html = readFileSync(`${DIST}index.html`, "utf8");
const scripts = [...html.matchAll(/<(?:script[^>]+src|link[^>]+rel="modulepreload"[^>]+href)="([^"]+\.js)"/g)];
/** @type {Set<string>} */
const seen = new Set();

/**
 * The entry's static imports are loaded with it; `import(…)` is not.
 *
 * @param {string} path below dist/
 */
function load(path) {
  if (seen.has(path)) return;
  seen.add(path);
  const code = readFileSync(DIST + path, "utf8");
  for (const next of importedBy(path, code)) load(next);
}

/**
 * The files that a built module can't run without.
 *
 * @param {string} path below dist/
 * @param {string} code
 */
function importedBy(path, code) {
  const found = code.matchAll(/(?:^|[;}\n])import\s*(?:[^"'()]*?from\s*)?["']\.\/([^"']+)["']/g);
  return [...found].map(([, next]) => path.replace(/[^/]+$/, next));
}

for (const [, path] of scripts) load(path.replace(/^\//, ""));
const sizes = [...seen].map((path) => ({ path, size: gzipSync(readFileSync(DIST + path)).length }));
const total = sizes.reduce((sum, { size }) => sum + size, 0);
for (const { path, size } of sizes) console.log(`${String(size).padStart(7)}  ${path}`);
console.log(`${String(total).padStart(7)}  of ${BUDGET_BYTES} bytes, gzip`);

const styles = [...html.matchAll(/<link[^>]+rel="stylesheet"[^>]+href="\/?([^"]+\.css)"/g)].map(([, path]) => path);
const styled = styles.reduce((sum, path) => sum + gzipSync(readFileSync(DIST + path)).length, 0);
console.log(`${String(styled).padStart(7)}  of ${STYLE_BUDGET_BYTES} bytes of styles, gzip`);
if (sizes.length === 0 || total > BUDGET_BYTES) process.exit(1);
if (styles.length === 0 || styled > STYLE_BUDGET_BYTES) process.exit(1);

/** @type {{ follows: typeof import("../src/kit/kept_app").follows }} */
const { follows } = await bundled({ "kit/kept_app.ts": ["follows"] });
const listed = readFileSync(`${DIST}sw.js`, "utf8").matchAll(/"url":"([^"]+)"/g);
const files = [...new Set([...listed].map(([, url]) => url))];
const first = files.filter((url) => !follows(url));
/** @param {string[]} urls */
const bytesOf = (urls) => urls.reduce((sum, url) => sum + statSync(DIST + url).size, 0);
const kept = bytesOf(first);
console.log(
  `${String(kept).padStart(7)}  of ${KEPT_FIRST_BYTES} bytes, raw: ${first.length} of ${KEPT_FIRST_FILES} files kept before "ready"`,
);
console.log(`${String(bytesOf(files.filter(follows))).padStart(7)}  bytes, raw, follow in the background`);
const torn = first.filter(
  (url) => url.endsWith(".js") && importedBy(url, readFileSync(DIST + url, "utf8")).some(follows),
);
for (const url of torn) console.error(`${url} is kept first, and can't run without what follows`);
if (first.length > KEPT_FIRST_FILES) process.exit(1);
if (first.length === files.length || kept > KEPT_FIRST_BYTES || torn.length > 0) process.exit(1);
