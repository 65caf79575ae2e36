/** The sample event's set-up files, with the package's own car map as its car map. */

import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Files } from "../src/setup/files";

const SAMPLE = fileURLToPath(new URL("../../sample_reports/thornquell-2026/", import.meta.url));
const DEFAULT_MAP = fileURLToPath(new URL("../../api/shuntbook/defaults/car_map.toml", import.meta.url));

export function sampleFiles(): Files {
  const names = ["event.toml", "van.csv", ...readdirSync(`${SAMPLE}rates`).map((name) => `rates/${name}`)];
  const files = Object.fromEntries(names.map((name) => [name, readFileSync(SAMPLE + name, "utf8")]));
  return { ...files, "car_map.toml": readFileSync(DEFAULT_MAP, "utf8") };
}
