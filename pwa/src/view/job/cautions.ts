/** Which of the usual cautions matter for a job. Common practice, no source. Pure. */

import type { Job } from "../../kit/api";

const HOT = new Set([
  ...["brake-disc", "brake-caliper", "brake-pads", "radiator", "coolant-hoses", "turbo-and-manifold", "tailpipe"],
  ...["front-pipe-and-catalyst", "silencer-and-hangers", "oil-cooler-and-lines", "engine-sump", "cool-down"],
]);
const WHEEL_OFF = "wheel-off";

const isCorner = (job: Job) => /^(front|rear)-(left|right)$/.test(job.zone);
const isUnder = (job: Job) => job.zone.startsWith("under") || isCorner(job);

/** Keys of the caution sentences, the gravest first. */
export function cautionsOf(job: Job): string[] {
  const { access } = job.estimate;
  const stands = isUnder(job) || access.some((step) => step.includes("stands"));
  const fuel = job.group === "fuel" || access.includes("fuel-made-safe");
  const hot = HOT.has(job.component) || access.includes("cool-down");
  const wheel = access.includes(WHEEL_OFF) || job.component === "wheel" || job.component === "studs-and-nuts";
  const found: [string, boolean][] = [
    ["fuel", fuel],
    ["stands", stands],
    ["battery", access.includes("battery-isolated")],
    ["hot", hot],
    ["pedal", job.group === "brake"],
    ["toe", job.group === "steering"],
    ["wheel", wheel],
  ];
  return found.filter(([, matters]) => matters).map(([name]) => name);
}
