/** Shows the screens with the fixture; `?who=p-gard&advice=0&release=nothing-open` choose what is seen. */

import { chosen } from "../src/report/choices";
import { render } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Actions, AppState, ReleaseShown, Route } from "../src/flow/model";
import { localIso } from "../src/kit/time";
import type { DataOf, Entry, Kind } from "../src/kit/api";
import { App } from "../src/view/App";
import { costs } from "./costs";
import { elsewhere } from "./elsewhere";
import { identity, state as fixture } from "./fixture";
import { held_plan } from "./plan";

const query = new URLSearchParams(location.search);

function routeOf(): Route {
  const [screen = "log", ...rest] = location.hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
  return { screen: (screen || "log") as Route["screen"], subject: rest.length ? rest.join("/") : null };
}

function start(): AppState {
  const shown = query.get("release");
  const release: ReleaseShown | null =
    shown === "nothing-open"
      ? { shown, heard_at: fixture.last_heard ?? "" }
      : shown === "not-known"
        ? { shown, why: ["1 entry of this phone is not sent yet."] }
        : fixture.release;
  const advice = query.get("advice") !== "0";
  const empty = query.has("empty");
  return {
    ...fixture,
    identity: query.has("nobody") ? null : identity(query.get("who") ?? "p-maru"),
    route: routeOf(),
    advice,
    entries: empty ? [] : fixture.entries,
    queue: advice && !empty ? fixture.queue : null,
    release: advice ? release : null,
    plans: advice && !empty ? [held_plan] : [],
    costs: { answer: costs, heard_at: fixture.last_heard ?? "", arrivals: 9 },
    message: query.has("message") ? { text: "Kept: nothing seen on SS5.", undo: "e002" } : null,
    joining: query.has("joining"),
    join_problem: query.has("nobody") ? "This code was used already. Ask your manager for a new one." : null,
  };
}

function Root() {
  const [state, setState] = useState(start);
  useEffect(() => {
    const changed = () => setState((now) => ({ ...now, route: routeOf() }));
    window.addEventListener("hashchange", changed);
    return () => window.removeEventListener("hashchange", changed);
  }, []);
  const add = <K extends Kind>(kind: K, subject: string | null, data: DataOf[K]) => {
    const id = `n${Date.now()}`;
    const person = state.identity?.person ?? "p-maru";
    const at = localIso(state.now, 120);
    const entry = {
      id,
      v: 1,
      kind,
      event: "harrow-forest-2026",
      car: state.car,
      subject: subject ?? id,
      at,
      device: "d",
      seq: 99,
      person,
      data,
    } as unknown as Entry;
    setState((now) => ({
      ...now,
      waiting: now.waiting + 1,
      entries: [...now.entries, { entry, mine: true, sending: "waiting", problem: null, held_at: at, arrival: 99 }],
    }));
    console.log("entry", JSON.stringify(entry));
    return id;
  };
  const heads = (report: string) =>
    state.entries.filter((held) => held.entry.subject === report).map((held) => held.entry.id);
  const findings = (job: string) => state.queue?.answer.jobs.find((one) => one.job === job)?.findings ?? [];
  const actions: Actions = {
    go: (route) => {
      location.hash = route;
    },
    chooseEvent: () => {},
    chooseCar: (car) => setState((now) => ({ ...now, car })),
    join: async () => {},
    switchPerson: async (person) => setState((now) => ({ ...now, identity: identity(person) })),
    syncNow: async () => {},
    applyUpdate: () => {},
    askToKeep: async () => setState((now) => ({ ...now, persisted: true })),
    dismiss: () => setState((now) => ({ ...now, message: null })),
    lookedAtQueue: async () => setState((now) => ({ ...now, fresh_jobs: [] })),
    keepPhoto: async () => "bb02",
    markPhoto: async () => "bb03",
    takeShared: async () => ({ photos: [], unreadable: 0, not_photos: 0, too_many: 0, no_room: 0 }),
    keepVoice: async (subject, _, seconds) => void add("voice.linked", subject, { voice: "ab".repeat(32), seconds }),
    voiceSound: async () => null,
    locate: async () => ({ refused: "unavailable" }),
    positionOf: async () => null,
    photoUrl: async () => null,
    fileReport: async (draft) => add("report.filed", null, draft),
    fileReports: async (drafts) => {
      for (const draft of drafts) await add("report.filed", null, draft);
    },
    enterControl: async (control, official_time) => void add("control.entered", null, { control, official_time }),
    leaveControl: async (official_time) => void add("control.left", null, { ends: [], official_time }),
    askDriver: async (asked, report) => {
      await add("driver.asked", null, asked);
      if (report) await add("report.filed", null, report);
    },
    amendReport: async (report, draft) => void add("report.amended", report, { ...draft, replaces: heads(report) }),
    withdrawReport: async (report, reason) => void add("report.withdrawn", report, { reason, replaces: heads(report) }),
    nothingSeen: async (stage, how) => {
      const undo = add("stage.nothing_seen", null, { stage, how });
      setState((now) => ({ ...now, message: { text: `Kept: nothing seen on ${stage}.`, undo } }));
    },
    enterService: async (service, official_time) => void add("service.entered", service, { service, official_time }),
    leaveService: async (service, official_time) => void add("service.left", service, { service, official_time }),
    changeDriver: async (driver) => void add("driver.changed", null, { driver }),
    startJob: async (job) => void add("job.started", job, {}),
    stopJob: async (job) => void add("job.stopped", job, {}),
    finishJob: async (job, finish) => void add("job.finished", job, { covers: findings(job), ...finish }),
    finishJobs: async (done) => {
      for (const { job, finish } of done) add("job.finished", job, { covers: findings(job), ...finish });
    },
    deferJob: async (job, to, reason) => void add("job.deferred", job, { to, reason }),
    inspect: async ({ signed, ...said }) => {
      for (const { job, verdict, checks } of signed)
        add(verdict === "passed" ? "inspection.passed" : "inspection.failed", job, { ...said, checks, covers: [] });
    },
    releaseCar: async (service, { pin: _, ...said }) => void add("car.released", null, { service, ...said }),
    adjustCost: async (line, amount, reason) => void add("cost.adjusted", line, { line, amount, reason }),
    keepSetupDraft: async () => {},
    dropSetupDraft: async () => {},
    checkSetup: async () => ({ faults: [], difference: [] }),
    putSetup: async () => {},
    sampleFiles: async () => ({}),
    invitePerson: async (person) => ({ person, link: "", code: "", drawn: [] }),
    voidEntry: async (entry, reason) => void add("entry.voided", null, { voids: [entry], reason }),
    askQuietly: async () => false,
    choosePlan: async (service, choice) =>
      setState((now) => ({
        ...now,
        plans: now.plans.map((one) =>
          one.plan.service === service ? { ...one, plan: chosen(one.plan, choice) } : one,
        ),
      })),
    answerOffer: async () => {},
    askTeamPlan: async () => {},
    improveTeamPlan: async () => false,
    chooseTeamPlan: async () => {},
    choosePlanned: async (planned) => setState((now) => ({ ...now, planned })),
    askPlan: async (service, wish) =>
      setState((now) => ({ ...now, plans: [{ ...held_plan, plan: { ...held_plan.plan, service }, wish }] })),
    startTask: async (service, task) => void add("task.started", task, { service }),
    finishTask: async (service, task) => void add("task.finished", task, { service }),
    keepBriefing: async (briefing) => setState((now) => ({ ...now, briefing })),
    acknowledgeBriefing: async ({ service, queue }) => void add("briefing.acknowledged", service, { service, queue }),
    setPin: async () => {},
    rebuildDone: async () => [],
    endRebuild: async () => {},
    knowInvite: async () => {},
    countedBefore: async () => [],
    retireCar: async () => {},
    goOn: async () => {},
    toldOfPasses: async () => {},
    groupReports: async (said, edited) =>
      void add("incident.grouped", null, { ...said, replaces: edited === null ? [] : [edited] }),
    takeApart: async (incident) => void add("incident.grouped", null, { reports: [], replaces: [incident] }),
    retainPart: async (job, kept) => void add("part.retained", job, kept),
    decideCharge: async (line, decision) => void add("charge.decided", line, { ...decision, replaces: [] }),
    addCharge: async (line, added) => void add("charge.added", line, { ...added, replaces: [] }),
    settleLine: async (statement, line, standing, reason) =>
      void add("statement.line_settled", statement, { line, standing, reason, replaces: [] }),
    takeReadings: async (readings, report) => {
      for (const reading of readings) add("reading.taken", null, reading);
      if (report) add("report.filed", null, report);
    },
    ...elsewhere,
  };
  return <App state={state} actions={actions} />;
}

if (query.has("map") && fixture.setup) fixture.setup.car_map = await (await fetch(query.get("map") ?? "")).json();

const place = document.getElementById("app");
if (place) render(<Root />, place);
