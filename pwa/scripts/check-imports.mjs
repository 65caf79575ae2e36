/** Holds src/ to its order: imports only go up the stream, and the screens never see the store or the network. */

import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const SRC = resolve(process.argv[2] ?? fileURLToPath(new URL("../src", import.meta.url)));

/**
 * What each folder may import besides itself; flow/ names the worker's file. A folder that is not named here is a fault.
 *
 * @type {Record<string, string[]>}
 */
const MAY_IMPORT = {
  kit: [],
  report: ["kit"],
  fold: ["kit", "report"],
  queue: ["kit", "report", "fold"],
  handover: ["kit", "report"],
  paper: ["kit", "report"],
  setup: ["kit"],
  store: ["kit", "report", "setup"],
  sync: ["kit", "report", "store"],
  worker: ["kit", "report", "fold", "queue"],
  flow: ["kit", "report", "handover", "paper", "setup", "store", "sync", "worker"],
  view: ["kit", "report", "queue", "setup", "flow"],
};

/** The files beside the folders: the page, and the service worker. */
const ROOT_FILES = new Map([
  ["main.tsx", ["flow", "view"]],
  ["sw.ts", ["kit", "worker"]],
]);

/** Of flow/, the screens see its model and nothing that acts. */
const VIEW_OF_FLOW = /flow\/model(\.ts)?$/;

const IMPORT = /(?:from|import)\s*\(?\s*["'](\.{1,2}\/[^"']+)["']/g;

/** @param {string} folder @returns {string[]} */
function files(folder) {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return files(path);
    return /\.tsx?$/.test(name) && !name.endsWith(".d.ts") ? [path] : [];
  });
}

/** @param {string} path */
const folderOf = (path) => relative(SRC, path).split(/[\\/]/)[0] ?? "";

/** @param {string} path @returns {string[]} */
function faults(path) {
  const from = folderOf(path);
  const allowed = ROOT_FILES.get(from) ?? MAY_IMPORT[from];
  if (!allowed) return [`${relative(SRC, path)}: ${from} is not in the list of folders (scripts/check-imports.mjs)`];
  return [...readFileSync(path, "utf8").matchAll(IMPORT)].flatMap(([, target]) => {
    const file = resolve(dirname(path), target.replace(/\?.*$/, ""));
    const to = folderOf(file);
    const isWrong = to !== from && !allowed.includes(to);
    const isDeep = from === "view" && to === "flow" && !VIEW_OF_FLOW.test(file);
    return isWrong || isDeep ? [`${relative(SRC, path)} imports ${target}: ${from} may not see it`] : [];
  });
}

const found = files(SRC).flatMap(faults);
for (const fault of found) console.error(fault);
console.log(`${files(SRC).length} files, ${found.length} imports against the stream`);
process.exit(found.length > 0 ? 1 : 0);
