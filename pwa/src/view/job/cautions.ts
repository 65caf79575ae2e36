/** Which of the usual cautions matter for a job, and which checks belong to a look at it. Common practice, no source. Pure. */

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

const CHECKS: Record<string, string[]> = {
  brake: ["no-crack-bend-leak", "no-leak-under-pressure", "hose-free-on-lock", "pedal-firm"],
  steering: ["no-crack-bend-leak", "lock-to-lock", "toe-checked", "fixings-tight"],
  "wheel-hold": ["no-crack-bend-leak", "fixings-tight", "nuts-torqued"],
  restraint: ["no-crack-bend-leak", "fixings-tight", "moves-free"],
  fuel: ["no-crack-bend-leak", "no-smell-no-drip", "fixings-tight"],
  throttle: ["moves-free", "fixings-tight"],
  cage: ["padding-off", "no-crack-bend-leak", "fixings-tight"],
};

/** The checks of a look at these jobs, each once. */
export function checksOf(jobs: Job[]): string[] {
  return [
    ...new Set(jobs.flatMap((job) => CHECKS[job.group ?? ""] ?? ["seen-bare", "no-crack-bend-leak", "fixings-tight"])),
  ];
}
