/** What to take along to a service without the van: parts and access of the jobs still to do. */

import type { Job } from "../kit/api";
import { byCodePoint, sortedSet } from "../kit/code_points";
import { quantity } from "../kit/currency";
import { Fraction } from "../kit/fraction";
import { OVER } from "./job";

/** How many of a part the jobs take, and how many of them the van lacks. */
interface PackedPart {
  part: string;
  qty: number;
  short: number;
}

/** `access`: the steps that open the way to the jobs. `without_rate`: keys of jobs whose parts no row tells. */
export interface PackingList {
  parts: PackedPart[];
  access: string[];
  without_rate: string[];
}

/** Return the packing list of a queue's jobs: of all that are neither finished nor accepted. Parts ascend by name. */
export function packingList(jobs: Job[]): PackingList {
  const todo = jobs.filter((job) => !OVER.has(job.state));
  return {
    parts: partsOf(todo),
    access: sortedSet(todo.flatMap((job) => job.estimate.access)),
    without_rate: todo.filter((job) => job.no_rate).map((job) => job.job),
  };
}

function partsOf(jobs: Job[]): PackedPart[] {
  const sums = new Map<string, { qty: Fraction; short: Fraction }>();
  for (const { part, qty, short } of jobs.flatMap((job) => job.estimate.parts)) {
    const sum = sums.get(part) ?? { qty: Fraction.ZERO, short: Fraction.ZERO };
    sums.set(part, { qty: sum.qty.plus(Fraction.read(qty)), short: sum.short.plus(Fraction.read(short)) });
  }
  const parts = [...sums].map(([part, sum]) => ({ part, qty: quantity(sum.qty), short: quantity(sum.short) }));
  return parts.sort((a, b) => byCodePoint(a.part, b.part));
}
