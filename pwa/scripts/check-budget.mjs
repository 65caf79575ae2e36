/** Fails when the JavaScript that the first screen loads is more than the budget (gzip; lazy chunks not counted). */

import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

const BUDGET_BYTES = 56_000;
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
  for (const [, next] of code.matchAll(/(?:^|[;}\n])import\s*(?:[^"'()]*?from\s*)?["']\.\/([^"']+)["']/g)) {
    load(path.replace(/[^/]+$/, next));
  }
}

for (const [, path] of scripts) load(path.replace(/^\//, ""));
const sizes = [...seen].map((path) => ({ path, size: gzipSync(readFileSync(DIST + path)).length }));
const total = sizes.reduce((sum, { size }) => sum + size, 0);
for (const { path, size } of sizes) console.log(`${String(size).padStart(7)}  ${path}`);
console.log(`${String(total).padStart(7)}  of ${BUDGET_BYTES} bytes, gzip`);
if (sizes.length === 0 || total > BUDGET_BYTES) process.exit(1);
