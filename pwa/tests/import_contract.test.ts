/** The order of src/ is held for every folder, those of tomorrow too. */

import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, beforeEach, expect, it } from "vitest";

const SCRIPT = fileURLToPath(new URL("../scripts/check-imports.mjs", import.meta.url));
let src: string;

beforeEach(() => {
  src = mkdtempSync(join(tmpdir(), "imports-"));
});
afterEach(() => rmSync(src, { recursive: true }));

function check(files: Record<string, string>) {
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(src, path)), { recursive: true });
    writeFileSync(join(src, path), text);
  }
  const { status, stderr } = spawnSync(process.execPath, [SCRIPT, src], { encoding: "utf8" });
  return { status, faults: stderr.trim().split("\n").filter(Boolean) };
}

it("lets a folder see what is up the stream, and nothing else", () => {
  expect(check({ "kit/ids.ts": "", "report/held.ts": 'import "../kit/ids";' })).toEqual({ status: 0, faults: [] });
  expect(check({ "kit/ids.ts": 'import "../report/held";' })).toEqual({
    status: 1,
    faults: ["kit/ids.ts imports ../report/held: kit may not see it"],
  });
});

it("names a folder that is in no list, and a file beside the folders", () => {
  const { status, faults } = check({ "weather/rain.ts": "", "loose.ts": "" });
  expect(status).toBe(1);
  expect(faults.map((fault) => fault.split(":")[0]).sort()).toEqual(["loose.ts", "weather/rain.ts"]);
});

it("holds the page and the service worker, too", () => {
  const { faults } = check({
    "main.tsx": 'import "./store/db";',
    "sw.ts": 'import "./flow/model";',
    "store/db.ts": "",
  });
  expect(faults).toHaveLength(2);
});
