/**
 * Writes what a manager's phone lets its person take away of a set-up, for a spreadsheet program to open in tests:
 * node set-up-files.mjs FILES OUT, where FILES is JSON of an event folder's texts by name; OUT gets all.xlsx and a CSV for
 * each table.
 */

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "vite";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const ENTRY = `
export { csvFile, workbookFile } from "${ROOT}src/setup/downloads.ts";
export { bookOf } from "${ROOT}src/setup/files.ts";
export { SPECS } from "${ROOT}src/setup/specs.ts";
`;

const [files = "", out = ""] = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), "shuntbook-"));
try {
  writeFileSync(join(folder, "entry.ts"), ENTRY);
  await build({
    configFile: false,
    root: ROOT,
    logLevel: "error",
    build: {
      ssr: join(folder, "entry.ts"),
      outDir: join(folder, "made"),
      rollupOptions: { output: { entryFileNames: "entry.mjs", format: "es" } },
    },
    ssr: { noExternal: true },
  });
  const { bookOf, csvFile, SPECS, workbookFile } = await import(pathToFileURL(join(folder, "made", "entry.mjs")).href);
  const book = bookOf(JSON.parse(readFileSync(files, "utf8")));
  const made = [await workbookFile(book, "all")];
  for (const spec of SPECS) if (book.tables[spec.table]) made.push(csvFile(spec, book.tables[spec.table]));
  for (const file of made) writeFileSync(join(out, file.name), new Uint8Array(await file.arrayBuffer()));
} finally {
  rmSync(folder, { recursive: true });
}
