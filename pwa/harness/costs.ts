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
  day: "2026-05-16",
  driver: "p-ilka",
  incident: "e001",
  temporary: false,
  baseline: false,
  access_share: { estimate: "2.00", actual: "1.50" },
  entries: ["e001"],
  estimate: {
    minutes: 12.5,
    mechanics: 1,
    timed: false,
    timed_by: "estimate",
    worked: [],
    labour: "12.00",
    parts: [],
    parts_cost: "28.00",
    consumables: "0.00",
    total: estimate,
  },
  actual:
    actual === null
      ? null
      : {
          minutes: kind === "access" ? null : 14,
          mechanics: 1,
          timed: true,
          timed_by: "entered",
          worked: [],
          consumables: "0.00",
          labour: "13.20",
          parts: [{ part: "wheel-15", qty: 1, unit_cost: "210.00" }],
          parts_cost: "210.00",
          total: actual,
        },
});

const money = <K extends object>(key: K, estimate: string, actual: string) => ({
  ...key,
  estimate,
  actual,
  adjustments: "0.00",
  before_tax: actual,
});

export const costs: Costs = {
  event: "harrow-forest-2026",
  car: null,
  rates: "5f2c9a71d0e4",
  currency: "EUR",
  tax_percent: 19,
  consumables_percent: 0,
  stage_km: 84.2,
  per_stage_km: { estimate: "7.82", actual: "3.10" },
  baseline: { estimate: "0.00", actual: "0.00" },
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
  by_car: [money({ car: "41" }, "658.65", "261.30")],
  by_day: [money({ day: "2026-05-16" }, "658.65", "261.30")],
  by_driver: [money({ driver: null }, "658.65", "261.30")],
  by_component: [
    money({ component: "wheel" }, "214.50", "223.20"),
    money({ component: "sump-guard" }, "394.25", "0.00"),
    money({ component: "track-rod-end" }, "40.00", "38.10"),
    money({ component: "headlamp" }, "9.90", "0.00"),
  ],
  by_stage: [
    money({ stage: "SS2" }, "254.50", "261.30"),
    money({ stage: "SS4" }, "394.25", "0.00"),
    money({ stage: null }, "9.90", "0.00"),
  ],
  by_zone: [
    money({ zone: "front-left" }, "254.50", "261.30"),
    money({ zone: "under-front" }, "394.25", "0.00"),
    money({ zone: "front-end" }, "9.90", "0.00"),
  ],
  totals: {
    estimate: "658.65",
    actual: "261.30",
    consumables: "0.00",
    adjustments: "-40.00",
    before_tax: "221.30",
    tax: "42.05",
    total: "263.35",
  },
};
