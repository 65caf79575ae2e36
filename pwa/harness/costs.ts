/** An invented cost sheet. */

import type { CostLine, Costs } from "../src/kit/api";

const line = (
  job: string,
  kind: CostLine["kind"],
  stage: string | null,
  estimate: string,
  actual: string | null,
): CostLine => ({
  line: `${job}#1`,
  kind,
  car: "41",
  job,
  zone: job.split("/")[0] ?? null,
  component: job.split("/")[1] ?? null,
  step: kind === "access" ? job : null,
  stage,
  service: "B",
  action: "replace",
  condition: "bent",
  entries: ["e001"],
  estimate: { minutes: 12.5, mechanics: 1, labour: "12.00", parts_cost: "28.00", total: estimate },
  actual:
    actual === null
      ? null
      : {
          minutes: kind === "access" ? null : 14,
          mechanics: 1,
          labour: "13.20",
          parts: [{ part: "wheel-15", qty: 1, unit_cost: "210.00" }],
          parts_cost: "210.00",
          total: actual,
        },
});

export const costs: Costs = {
  event: "harrow-forest-2026",
  car: null,
  rates: "5f2c9a71d0e4",
  currency: "EUR",
  tax_percent: 19,
  lines: [
    line("front-left/wheel", "repair", "SS2", "214.50", "223.20"),
    line("under-front/sump-guard", "open", "SS4", "394.25", null),
    line("front-left/track-rod-end", "repair", "SS2", "40.00", "38.10"),
    line("front-end/headlamp", "open", null, "9.90", null),
  ],
  adjustments: [
    {
      entry: "e020",
      line: "front-left/wheel",
      car: "41",
      amount: "-40.00",
      reason: "Tyre was half worn",
      person: "p-kaya",
      counts: true,
    },
    {
      entry: "e021",
      line: "front-left/hub",
      car: "41",
      amount: "15.00",
      reason: "Wrong line",
      person: "p-tove",
      counts: false,
    },
  ],
  by_stage: [
    { stage: "SS2", estimate: "254.50", actual: "261.30" },
    { stage: "SS4", estimate: "394.25", actual: "0.00" },
    { stage: null, estimate: "9.90", actual: "0.00" },
  ],
  by_zone: [
    { zone: "front-left", estimate: "254.50", actual: "261.30" },
    { zone: "under-front", estimate: "394.25", actual: "0.00" },
    { zone: "front-end", estimate: "9.90", actual: "0.00" },
  ],
  totals: {
    estimate: "658.65",
    actual: "261.30",
    adjustments: "-40.00",
    before_tax: "221.30",
    tax: "42.05",
    total: "263.35",
  },
};
