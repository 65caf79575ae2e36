/** An invented event half way through its day, as the screens would be told of it. */

import type { DataOf, Entry, EventSetup, Job, Kind, Queue, ReportBody, Role } from "../src/kit/api";
import type { AppState, LocalEntry, Identity, Sending } from "../src/flow/model";
import { car_map } from "./map";

export const NOW = Date.parse("2026-05-16T13:14:20+02:00");
const EVENT = "harrow-forest-2026";

export const setup: EventSetup = {
  event: EVENT,
  name: "Harrow Forest Rally",
  timezone: "Europe/Berlin",
  kind: "rally",
  emergency: "",
  places: [],
  looks: {
    brake: ["No crack, bend or leak seen", "Pedal firm after pumping"],
    other: ["No crack, bend or leak seen", "Fixings tight and secured"],
  },
  currency: "EUR",
  cars: [
    { car: "41", label: "Car 41" },
    { car: "42", label: "Car 42" },
  ],
  people: [
    { person: "p-maru", name: "Maru", roles: ["co-driver"], skills: [] },
    { person: "p-ilse", name: "Ilse", roles: ["driver"], skills: [] },
    { person: "p-tove", name: "Tove", roles: ["mechanic"], skills: [] },
    { person: "p-gard", name: "Gard", roles: ["mechanic", "inspector"], skills: [] },
    { person: "p-wren", name: "Wren", roles: ["inspector"], skills: [] },
    { person: "p-kaya", name: "Kaya", roles: ["manager"], skills: [] },
  ],
  stages: ["SS1", "SS2", "SS3", "SS4", "SS5", "SS6"].map((stage, place) => ({
    stage,
    km: [7.3, 14.2, 9.8, 7.3, 14.2, 9.8][place] ?? 8,
  })),
  services: [
    {
      service: "A",
      after: "",
      kind: "morning",
      arrive: "2026-05-16T08:00:00+02:00",
      minutes: 15,
      in_and_out_minutes: 5,
      parc_ferme_after: false,
    },
    {
      service: "B",
      after: "SS4",
      kind: "midday",
      arrive: "2026-05-16T13:02:00+02:00",
      minutes: 30,
      in_and_out_minutes: 7,
      parc_ferme_after: false,
    },
    {
      service: "C",
      after: "SS6",
      kind: "evening",
      arrive: "2026-05-16T18:40:00+02:00",
      minutes: 45,
      in_and_out_minutes: 7,
      parc_ferme_after: false,
    },
  ],
  regulations: {
    late_penalty_s_per_minute: 10,
    early_penalty_s_per_minute: 60,
    late_limit_minutes: 15,
    total_late_limit_minutes: 30,
    advice_on_road: false,
  },
  routine: [],
  car_map,
  rates: "5f2c9a71d0",
  rate_table: {
    version: "5f2c9a71d0",
    currency: "EUR",
    decimals: 2,
    labour_per_hour: "60",
    inspect_minutes: ["1", "2", "4"],
    assess_minutes: ["5", "10", "20"],
    inspect_minutes_by_group: {},
    operations: [],
    access: [],
    parts: [],
  },
  van: {},
  agreements: [],
  dated: [],
  trust: { signatures: "off" },
  parts: [
    { part: "wheel-15", description: "Wheel 15 inch" },
    { part: "brake-hose-front", description: "Brake hose, front" },
    { part: "guard-sump", description: "Sump guard" },
  ],
};

let seq = 0;
function held<K extends Kind>(
  kind: K,
  person: string,
  clock: string,
  data: DataOf[K],
  subject: string | null,
  sending: Sending = "sent",
  mine = false,
): LocalEntry {
  seq += 1;
  const id = `e${String(seq).padStart(3, "0")}`;
  const entry = {
    id,
    v: 1,
    kind,
    event: EVENT,
    car: "41",
    subject: subject ?? id,
    at: `2026-05-16T${clock}:00+02:00`,
    device: "d-1",
    seq,
    person,
    data,
  } as unknown as Entry;
  return { entry, mine, sending, problem: null, held_at: entry.at, arrival: seq };
}

const hit: Pick<ReportBody, "where" | "caused_by" | "direction" | "symptoms" | "photos" | "note" | "drives"> = {
  where: "stage",
  caused_by: null,
  direction: null,
  symptoms: [],
  photos: [],
  note: "",
  drives: "well",
};

export const entries: LocalEntry[] = [
  held(
    "report.filed",
    "p-maru",
    "10:42",
    {
      ...hit,
      stage: "SS2",
      km: 6.1,
      zone: "front-left",
      cause: "stone",
      direction: 11,
      findings: [{ component: "wheel", condition: "bent" }],
      note: "Left-hander over the bridge, hidden stone.",
      photos: ["aa01"],
    },
    null,
    "sent",
    true,
  ),
  held("stage.nothing_seen", "p-maru", "11:15", { stage: "SS3", how: "from-seat" }, null, "sent", true),
  held(
    "report.filed",
    "p-maru",
    "12:20",
    {
      ...hit,
      stage: "SS4",
      km: 2.4,
      zone: "under-front",
      cause: "landing",
      findings: [{ component: "sump-guard", condition: "bent" }],
      symptoms: ["long-pedal"],
      drives: "poorly",
      photos: [],
    },
    null,
    "sent",
    true,
  ),
  held(
    "report.amended",
    "p-gard",
    "13:05",
    {
      ...hit,
      stage: "SS4",
      km: 2.4,
      zone: "under-front",
      cause: "landing",
      findings: [{ component: "sump-guard", condition: "cracked" }],
      replaces: ["e003"],
    },
    "e003",
    "sent",
  ),
  held(
    "report.amended",
    "p-maru",
    "13:06",
    {
      ...hit,
      stage: "SS4",
      km: 2.6,
      zone: "under-front",
      cause: "landing",
      findings: [{ component: "sump-guard", condition: "bent" }],
      symptoms: ["long-pedal"],
      replaces: ["e003"],
    },
    "e003",
    "waiting",
    true,
  ),
  held("service.entered", "p-maru", "13:02", { service: "B", official_time: "13:02" }, "B", "sent", true),
  held(
    "report.filed",
    "p-tove",
    "13:06",
    {
      ...hit,
      where: "service",
      stage: "SS4",
      km: null,
      zone: "front-end",
      cause: "unknown",
      findings: [{ component: "headlamp", condition: "broken" }],
      drives: null,
    },
    null,
  ),
  held("job.started", "p-tove", "13:07", {}, "front-left/wheel"),
  held(
    "inspection.passed",
    "p-wren",
    "12:58",
    { covers: ["e001"], checks: [{ check: "no-crack-bend-leak", ok: true }] },
    "front-left/brake-hose",
  ),
  held(
    "report.filed",
    "p-maru",
    "13:10",
    {
      ...hit,
      stage: "SS4",
      km: null,
      zone: "front-left",
      cause: "unknown",
      findings: [{ component: "brake-hose", condition: "marked" }],
    },
    null,
    "waiting",
    true,
  ),
];

const refused = held(
  "report.filed",
  "p-maru",
  "09:55",
  {
    ...hit,
    stage: "SS1",
    km: 3,
    zone: "rear-end",
    cause: "bank",
    findings: [{ component: "rear-bumper", condition: "loose" }],
  },
  null,
  "attention",
  true,
);
refused.problem = {
  type: "https://shuntbook.invalid/problems/wrong-shape",
  title: "The entry has a field of the wrong shape",
  status: 422,
  detail: "km must be a number",
  field: "data.km",
};
entries.push(refused);

const money = (labour: string, parts_cost: string, total: string) => ({ labour, parts_cost, total, currency: "EUR" });
const minutes = (best: number, likely: number, worst: number) => ({
  minutes_best: best,
  minutes_likely: likely,
  minutes_worst: worst,
  minutes_expected: (best + 4 * likely + worst) / 6,
});
const job = (key: string, more: Partial<Job>): Job => {
  const [zone = "", component = ""] = key.split("/");
  return {
    job: key,
    zone,
    component,
    group: car_map.components[component]?.group ?? null,
    safety_critical: false,
    must_do: false,
    condition: "unknown",
    action: "inspect",
    no_rate: false,
    knock_on: false,
    retracted: false,
    state: "open",
    inspection: "not-needed",
    findings: ["e001"],
    uncovered: [],
    reports: ["e001"],
    photos: [],
    two_versions: false,
    estimate: {
      ...minutes(1, 2, 4),
      mechanics: 1,
      access: ["car-on-stands", "wheel-off"],
      parts: [],
      ...money("1.06", "0.00", "1.06"),
    },
    ...more,
  };
};
const safety: Partial<Job> = {
  safety_critical: true,
  must_do: true,
  inspection: "needed",
  uncovered: ["e001"],
  knock_on: true,
};

export const queue: Queue = {
  event: EVENT,
  car: "41",
  entries: 9,
  rates: setup.rates,
  hash: "x",
  release: "hold",
  hold_reasons: [
    { job: "front-left/brake-hose", needs: "inspection", entries: ["e001"] },
    { job: "cabin/door-bars", needs: "official", entries: ["e003"] },
    { job: "front-left/track-rod-end", needs: "re-inspection", entries: ["e001"] },
    { job: null, needs: "review", entries: ["e011"] },
  ],
  released_unseen: [],
  jobs: [
    job("front-left/brake-hose", { ...safety }),
    job("front-left/track-rod-end", {
      ...safety,
      inspection: "failed",
      condition: "bent",
      action: "replace",
      state: "started",
      estimate: {
        ...minutes(6, 12, 25),
        mechanics: 1,
        access: ["car-on-stands", "wheel-off"],
        parts: [{ part: "track-rod-end", qty: 1, unit_cost: "28.00", short: 0 }],
        ...money("12.00", "28.00", "40.00"),
      },
    }),
    job("front-left/hub-and-bearing", { ...safety }),
    job("front-left/lower-arm", { ...safety, state: "patched" }),
    job("cabin/door-bars", { ...safety, reports: ["e003"] }),
    job("front-left/wheel", {
      must_do: true,
      condition: "bent",
      action: "replace",
      state: "started",
      photos: ["aa01"],
      estimate: {
        ...minutes(1, 2, 5),
        mechanics: 1,
        access: ["car-on-stands"],
        parts: [{ part: "wheel-15", qty: 1, unit_cost: "210.00", short: 1 }],
        ...money("2.13", "210.00", "212.13"),
      },
    }),
    job("under-front/sump-guard", {
      condition: "cracked",
      action: "swap",
      reports: ["e003"],
      findings: ["e004", "e005"],
      two_versions: true,
      state: "deferred",
      estimate: {
        ...minutes(1, 2, 5),
        mechanics: 2,
        access: ["car-on-stands", "sump-guard-off"],
        parts: [{ part: "guard-sump", qty: 1, unit_cost: "390.00", short: 0 }],
        ...money("4.25", "390.00", "394.25"),
      },
    }),
    job("front-end/headlamp", {
      condition: "broken",
      action: "assess",
      no_rate: true,
      reports: ["e007"],
      findings: ["e007"],
      estimate: { ...minutes(5, 10, 20), mechanics: 1, access: [], parts: [], ...money("9.90", "0.00", "9.90") },
    }),
    job("rear-left/mud-flap", { condition: "missing", action: "replace", state: "finished" }),
  ],
  totals: { mechanic_minutes: 61.5, access_minutes: 22, labour: "62.15", parts_cost: "628.00", total: "690.15" },
};

export const identity = (person: string): Identity => {
  const one = setup.people.find((p) => p.person === person) ?? { person, name: person, roles: ["co-driver"] as Role[] };
  return {
    person: one.person,
    name: one.name,
    roles: one.roles,
    device: `d-${one.person}`,
    signs: true,
    has_pin: true,
  };
};

export const state: AppState = {
  ready: true,
  identity: identity("p-maru"),
  identities: [identity("p-maru"), identity("p-gard")],
  route: { screen: "log", subject: null },
  setup,
  events: [{ event: EVENT, name: setup.name }],
  told: null,
  car: "41",
  boards: [],
  entries,
  advice: true,
  resting: false,
  queue: { answer: queue, heard_at: "2026-05-16T13:12:40+02:00", arrivals: 9 },
  release: {
    shown: "hold",
    reasons: queue.hold_reasons,
    heard_at: "2026-05-16T13:12:40+02:00",
    why: ["2 entries of this phone are not sent yet."],
  },
  fresh_jobs: ["front-end/headlamp", "front-left/brake-hose"],
  costs: null,
  statements: null,
  lives: null,
  passes: null,
  season: null,
  queue_from: "server",
  gaps: [],
  team_plan: null,
  plans: [],
  planned: null,
  briefing: null,
  drafts: [],
  files: [],
  last_heard: "2026-05-16T13:12:40+02:00",
  unreachable: false,
  failed: false,
  token_refused: false,
  fetched: null,
  waiting: 2,
  attention: 1,
  waiting_photos: 1,
  persisted: false,
  keeping: { state: "kept" },
  following: null,
  space: null,
  install: null,
  update_ready: true,
  now: NOW,
  message: null,
  join_problem: null,
};
