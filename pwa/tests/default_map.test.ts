/** How much the package's own map asks for at once, by this phone's own rules. */

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Queue } from "../src/kit/api";
import type { QueueAsk } from "../src/kit/queue_ask";
import { queueAnswer } from "../src/queue/answer";

type Vector = QueueAsk & { queue: Queue };
const FILE = new URL("../../schemas/vectors/queue/a-corner-by-the-usual-map.json", import.meta.url);

test("a bent rim, a bent arm and a long pedal are at most 15 inspections at 4 places", () => {
  const { queue: _, ...ask }: Vector = JSON.parse(readFileSync(FILE, "utf8"));
  const inspected = queueAnswer(ask).jobs.filter((job) => job.action === "inspect");
  expect(inspected.map((job) => job.job)).toContain("engine-bay/master-cylinders-and-reservoir");
  expect(inspected.length).toBeGreaterThan(8);
  expect(inspected.length).toBeLessThanOrEqual(15);
  expect(new Set(inspected.map((job) => job.zone)).size).toBeLessThanOrEqual(4);
});
