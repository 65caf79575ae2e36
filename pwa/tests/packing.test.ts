/** What to take along: of the jobs still to do, and of no other. */

import { expect, test } from "vitest";
import type { Job } from "../src/kit/api";
import { packingList } from "../src/queue/packing";
import { job } from "./making";

function needing(key: string, parts: [string, number, number][], access: string[], change: Partial<Job> = {}): Job {
  const estimate = {
    parts: parts.map(([part, qty, short]) => ({ part, qty, short, unit_cost: "1.00" })),
    access,
  } as unknown as Job["estimate"];
  return job(key, { estimate, ...change });
}

test("parts add up by name, what is short of them too; steps stand once", () => {
  const jobs = [
    needing("rear/lamp", [["lamp", 1, 0]], ["bonnet-up", "wheel-off"]),
    needing("front/lamp", [["lamp", 1, 1]], ["bonnet-up"]),
    needing("front/oil", [["fluid", 0.1, 0]], []),
    needing("rear/oil", [["fluid", 0.2, 0.05]], []),
  ];
  expect(packingList(jobs)).toEqual({
    parts: [
      { part: "fluid", qty: 0.3, short: 0.05 },
      { part: "lamp", qty: 2, short: 1 },
    ],
    access: ["bonnet-up", "wheel-off"],
    without_rate: [],
  });
});

test("what is finished or accepted needs nothing; what is patched, deferred or begun does", () => {
  const states: Job["state"][] = ["open", "started", "deferred", "patched", "accepted", "finished"];
  const jobs = states.map((state) => needing(`zone/${state}`, [[state, 1, 0]], [state], { state }));
  const { parts, access } = packingList(jobs);
  expect(parts.map((one) => one.part)).toEqual(["deferred", "open", "patched", "started"]);
  expect(access).toEqual(["deferred", "open", "patched", "started"]);
});

test("jobs without a row are named: nobody else thinks of their parts", () => {
  const jobs = [
    needing("a/b", [], [], { no_rate: true }),
    needing("c/d", [], [], { no_rate: true, state: "finished" }),
  ];
  expect(packingList(jobs).without_rate).toEqual(["a/b"]);
});
