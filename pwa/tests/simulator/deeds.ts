/** What people do with their phones, by chance: each deed is an action of the app, as a screen would call it. */

import type { Engine } from "../../src/flow/engine";
import type { AppState, Draft, Finish, Inspection } from "../../src/flow/model";
import type { Entry } from "../../src/kit/api";
import type { Chance } from "./chance";
import type { Phone } from "./phone";

/** Of the small event of the tests. */
const PLACES: [zone: string, component: string, conditions: string[]][] = [
  ["front-left", "wheel", ["bent", "broken", "unknown", "worn"]],
  ["front-left", "hub", ["bent", "cracked"]],
  ["front-left", "brake-hose", ["marked", "leaking", "broken"]],
  ["front-left", "tie", ["marked", "bent", "loose"]],
  ["front-right", "wheel", ["bent", "flat"]],
  ["front-right", "brake-hose", ["leaking", "marked"]],
  ["front-end", "bumper", ["bent", "missing"]],
  ["front-end", "lamp", ["broken"]],
  ["front-end", "grille", ["missing"]],
  ["cabin", "main-hoop", ["bent", "unknown"]],
  ["cabin", "harness", ["worn", "marked"]],
];
const STAGES = ["SS1", "SS2", "SS3"];
const SERVICES = ["A", "B", "C"];
const PIN = "4711";
export { PIN };

type Deed = (engine: Engine, state: AppState, chance: Chance) => unknown;

const mine = (state: AppState) => state.entries.filter((one) => one.mine).map((one) => one.entry);
const reports = (state: AppState) => state.entries.map((one) => one.entry).filter((one) => one.kind === "report.filed");
const ofCar = (entries: Entry[], state: AppState) => entries.filter((one) => one.car === state.car);
const jobs = (state: AppState) => state.queue?.answer.jobs.map((one) => one.job) ?? [];

function draft(chance: Chance): Draft {
  const [zone, component, conditions] = chance.one(PLACES);
  const body: Record<string, unknown> = {
    stage: chance.one([null, ...STAGES]),
    km: chance.one([null, 3.4, 7]),
    where: chance.one(["stage", "road-section", "service", "hand-over"]),
    zone,
    cause: chance.one(["stone", "bank", "landing", "wear"]),
    findings: [{ component, condition: chance.one(conditions) }],
    symptoms: [],
    photos: [],
    note: chance.one([null, "seen late", "ß 🙂 é"]),
  };
  if (chance.happens(0.2)) body.findings = [];
  if (chance.happens(0.15)) body.symptoms = ["long-pedal"];
  if (chance.happens(0.1))
    body.photos = [
      chance
        .whole(0, 2 ** 31)
        .toString(16)
        .padStart(64, "0"),
    ];
  return body as unknown as Draft;
}

function finish(chance: Chance): Finish {
  return {
    action: chance.one(["replace", "press", "wrap"]),
    minutes: chance.one([null, 4, 7.5]),
    mechanics: 1,
    parts: chance.some(
      [
        { part: "rim", qty: 1 },
        { part: "hose", qty: 2 },
        { part: "lamp", qty: 1 },
      ],
      0.3,
    ),
    repairers: [],
    temporary: chance.happens(0.25),
    said_at: null,
  };
}

/** One that is OK has every check of the lists in force, whatever the job's group: so that some of them count. */
function inspection(job: string, state: AppState, chance: Chance): Inspection {
  const verdict = chance.happens(0.75) ? "passed" : "failed";
  const names = new Set(["Seen", ...Object.values(state.setup?.looks ?? {}).flat()]);
  const checks = [...names].map((check) => ({ check, ok: verdict === "passed" || !chance.happens(0.5) }));
  return {
    signed: [{ job, verdict, checks }],
    until: chance.one([null, null, "B", "C"]),
    shown_to: chance.one([null, "A. Official"]),
    official_said: chance.one([null, "may go on"]),
    note: null,
  };
}

const file: Deed = (engine, _, chance) => engine.actions.fileReport(draft(chance));
const fileSeveral: Deed = (engine, _, chance) =>
  engine.actions.fileReports([draft(chance), draft(chance), draft(chance)]);

const amend: Deed = (engine, state, chance) => {
  const known = ofCar(reports(state), state);
  return known.length > 0
    ? engine.actions.amendReport(chance.one(known).id, draft(chance))
    : file(engine, state, chance);
};

const withdraw: Deed = (engine, state, chance) => {
  const known = ofCar(reports(state), state);
  return known.length > 0 && engine.actions.withdrawReport(chance.one(known).id, "by mistake");
};

const undo: Deed = (engine, state, chance) => {
  const own = mine(state).filter((one) => /^(job|inspection\.passed|car\.released|service|stage)/.test(one.kind));
  return own.length > 0 && engine.actions.voidEntry(chance.one(own).id, "mis-tap");
};

const aboutJob =
  (act: (engine: Engine, job: string, chance: Chance) => unknown): Deed =>
  (engine, state, chance) => {
    const known = jobs(state);
    return known.length > 0 && act(engine, chance.one(known), chance);
  };

const DEEDS: Record<string, [weight: number, deed: Deed]> = {
  fileReport: [10, file],
  fileReports: [2, fileSeveral],
  amendReport: [3, amend],
  withdrawReport: [1, withdraw],
  voidEntry: [3, undo],
  nothingSeen: [1, (engine, _, chance) => engine.actions.nothingSeen(chance.one(STAGES), "from-seat")],
  enterService: [1, (engine, _, chance) => engine.actions.enterService(chance.one(SERVICES), "12:10")],
  leaveService: [1, (engine, _, chance) => engine.actions.leaveService(chance.one(SERVICES), "12:40")],
  startJob: [3, aboutJob((engine, job) => engine.actions.startJob(job))],
  stopJob: [1, aboutJob((engine, job) => engine.actions.stopJob(job))],
  finishJob: [4, aboutJob((engine, job, chance) => engine.actions.finishJob(job, finish(chance)))],
  deferJob: [
    1,
    aboutJob((engine, job, chance) => engine.actions.deferJob(job, chance.one(["next-service", "road"]), "no time")),
  ],
  inspect: [4, aboutJob((engine, job, chance) => engine.actions.inspect(inspection(job, engine.state(), chance), PIN))],
  releaseCar: [
    1,
    (engine, _, chance) => engine.actions.releaseCar(chance.one(SERVICES), { reason: "late", answers: [], pin: PIN }),
  ],
  adjustCost: [1, aboutJob((engine, job) => engine.actions.adjustCost(job, "12.50", "agreed"))],
  chooseCar: [1, (engine, _, chance) => engine.actions.chooseCar(chance.one(["41", "42"]))],
  syncNow: [1, (engine) => engine.actions.syncNow()],
};

const LOTS = Object.entries(DEEDS).flatMap(([name, [weight]]) => Array<string>(weight).fill(name));

/** Have a phone's person do something. */
export function doSomething(phone: Phone, chance: Chance): void {
  const name = phone.state?.car ? chance.one(LOTS) : "chooseCar";
  phone.act(name, (engine) => DEEDS[name]?.[1](engine, engine.state(), chance));
}
