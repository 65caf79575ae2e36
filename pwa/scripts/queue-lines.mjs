/**
 * Works out queues as a phone does: a line of JSON in, {"setup", "entries", "set_aside", "cars": […]}, for each car a
 * line out, the queue in RFC 8785 form. Holds the two programs that calculate the queue against each other.
 */

import { createInterface } from "node:readline";
import { bundled } from "./bundled.mjs";

/** @type {{ queueAnswer: typeof import("../src/queue/answer").queueAnswer, canonical: typeof import("../src/kit/canonical").canonical }} */
const { queueAnswer, canonical } = await bundled({
  "queue/answer.ts": ["queueAnswer"],
  "kit/canonical.ts": ["canonical"],
});
for await (const line of createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY })) {
  const { cars, ...ask } = JSON.parse(line);
  for (const car of cars) process.stdout.write(`${canonical(queueAnswer({ ...ask, car }))}\n`);
}
