/**
 * Runs the simulator of tests/simulator: the phones' side, which holds the clock and the network. The server's side
 * starts it, and answers its calls over two pipes, whose numbers are its arguments: see tests/simulator/ of the whole project.
 */

import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { setFlagsFromString } from "node:v8";
import { build } from "vite";

const ROOT = fileURLToPath(new URL("..", import.meta.url));

const PHONE = `
export { startEngine } from "${ROOT}src/flow/engine.ts";
export { queueAnswer } from "${ROOT}src/queue/answer.ts";
export { UserError } from "${ROOT}src/kit/user_error.ts";
export { canonical } from "${ROOT}src/kit/canonical.ts";
`;

/** Parts with large libraries, which no simulated person opens. */
const LEFT_OUT = ["./walk_paper", "./scanning", "./handover", "./setup_files"];

/** What a page finds around it: each page has its own. */
const AROUND = [
  "setTimeout setInterval clearTimeout clearInterval Date Math crypto AbortSignal fetch document location history",
  "navigator sessionStorage BroadcastChannel Worker addEventListener removeEventListener isSecureContext indexedDB",
  "console window self globalThis IDBCursor IDBCursorWithValue IDBDatabase IDBFactory IDBIndex IDBKeyRange",
  "IDBObjectStore IDBOpenDBRequest IDBRequest IDBTransaction IDBVersionChangeEvent WeakMap",
]
  .join(" ")
  .split(" ");

/**
 * Return one file's text that holds all that an entry imports.
 *
 * @param {string} entry
 * @param {"iife" | "es"} format
 * @returns {Promise<string>}
 */
async function bundle(entry, format) {
  const asked = {
    name: "asked",
    resolveId: (/** @type {string} */ id) => (id === "asked" ? "\0asked" : null),
    load: (/** @type {string} */ id) => (id === "\0asked" ? entry : null),
  };
  // No worker runs here: the simulated browser does its work. And what nobody asks for here need not be read.
  const workers = {
    name: "workers",
    enforce: /** @type {const} */ ("pre"),
    resolveId(/** @type {string} */ id) {
      if (id.includes("?worker&url")) return "\0worker";
      return LEFT_OUT.includes(id) ? "\0nothing" : null;
    },
    load(/** @type {string} */ id) {
      if (id === "\0worker") return 'export default "/assets/queue-simulated.js"';
      return id === "\0nothing" ? "export {}" : null;
    },
  };
  const output = { format, name: "app", codeSplitting: false, exports: /** @type {const} */ ("named") };
  const built = await build({
    configFile: false,
    root: ROOT,
    logLevel: "error",
    plugins: [asked, workers],
    ssr: { noExternal: true },
    build: { ssr: true, write: false, target: "es2022", minify: false, rollupOptions: { input: "asked", output } },
  });
  if (Array.isArray(built) || !("output" in built)) throw new Error("Vite built something else than one bundle");
  if (built.output.length !== 1) throw new Error(`Vite built ${built.output.length} files where one was asked for`);
  return built.output[0].code;
}

// Each page runs the app's code anew, so that V8 finds the same functions hot again and again: what it takes to compile
// them with all its care, most pages do not live long enough to give back. A V8 that does not know the word ignores it.
setFlagsFromString("--interrupt-budget=500000");

const simulator = await bundle(`export { simulate } from "${ROOT}tests/simulator/main.ts";`, "es");
// A file, so that a line of it can be named where something fails.
const folder = mkdtempSync(join(tmpdir(), "simulator-"));
const file = join(folder, "simulator.mjs");
writeFileSync(file, simulator);
const { simulate } = await import(pathToFileURL(file).href);
rmSync(folder, { recursive: true });
const phone = await bundle(PHONE, "iife");
const code = new Function("around", `const { ${AROUND.join(", ")} } = around; ${phone}; return app;`);
await simulate(code);
