/** Writes down what a run took of a processor, with all its threads, for the end of `.ci/run` (tools/parts_report.py). */

import { writeFileSync } from "node:fs";

/** Vitest calls it once the run is over. */
export function teardown(): void {
  const { userCPUTime, systemCPUTime } = process.resourceUsage();
  writeFileSync(`${process.env.SHUNTBOOK_PARTS}/vitest.cpu`, String((userCPUTime + systemCPUTime) / 1e6));
}
