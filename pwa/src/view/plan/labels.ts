/** A plan's tasks and times in words. Pure. */

import type { EventSetup, PlanTask } from "../../kit/api";
import { clockIn, msOf } from "../../kit/time";
import { jobsOf, type ShownPlan } from "../../report/plan";
import { componentLabel, jobLabel, personName, zoneLabel } from "../labels";
import { board } from "../words/board";
import { stepWords, tasks, plan as words } from "../words/plan";
import { common } from "../words/common";
import type { Planning } from "./usePlanning";

const { corners } = board;
const plain = (name: string) => tasks.named(name);

/** "wheel rim" for "Wheel rim"; an abbreviation stays as it is. */
const small = (text: string) => (/^.[A-Z0-9]/.test(text) ? text : text.charAt(0).toLowerCase() + text.slice(1));

/** "Swap wheel rim, front left"; "Wheel off, front left"; "Spanner check"; "Inspect front left: hub, lower arm". */
export function taskLabel(setup: EventSetup, task: PlanTask): string {
  const several = jobsOf(task);
  if (several.length > 1) return severalLabel(setup, task, several);
  const at = task.zone && task.zone in setup.car_map.zones ? `, ${small(zoneLabel(setup.car_map, task.zone))}` : "";
  if (task.kind === "open" || task.kind === "close") return stepWords(task.step ?? task.task, task.kind) + at;
  if (task.kind === "routine") return routineLabel(setup, task.task);
  const doing = task.kind === "inspect" ? "inspect" : nameBefore(task);
  if (!task.job) return task.kind === "inspect" ? tasks.inspect(at.replace(", ", "")) : plain(doing) + at;
  // The nuts are the corner's, whatever the wheel came off for.
  if (task.kind === "check" && task.task.startsWith(NUTS)) return plain(doing) + at;
  const thing = thingOf(setup, task.job);
  if (task.kind === "inspect") return tasks.inspect(thing);
  return task.kind === "check" ? common.and(plain(doing), thing) : `${plain(doing)} ${thing}`;
}

function severalLabel(setup: EventSetup, task: PlanTask, jobs: string[]): string {
  const parts = jobs.map((job) => small(partOf(setup, job)));
  return common.and(tasks.inspect(small(zoneLabel(setup.car_map, task.zone))), parts.join(", "));
}

const partOf = (setup: EventSetup, job: string) => componentLabel(setup.car_map, job.split("/")[1] ?? job);

/** What fits on a lane: "lift", "FR off", "brake hose", "inspect FR", "torque FR". */
export function shortLabel(setup: EventSetup, task: PlanTask): string {
  const corner = corners[task.zone] ?? "";
  if (task.kind === "open" || task.kind === "close") return tasks.shortStep(task.step ?? "", task.kind, corner);
  if (task.kind === "inspect")
    return `${tasks.short.inspect} ${corner || (task.zone && small(placeOf(setup, task)))}`.trim();
  if (task.kind === "work" && task.job) return partOf(setup, task.job).toLowerCase();
  if (task.task.startsWith(NUTS)) return `${tasks.short.torque} ${corner}`.trim();
  if (RENEWS.test(task.task)) return `${plain("renew")} ${corner}`.trim().toLowerCase();
  return plain(task.kind === "routine" ? task.task.replace(/^routine /, "") : nameBefore(task)).toLowerCase();
}

const NUTS = "wheel-nut-torque";
const placeOf = (setup: EventSetup, task: PlanTask) => zoneLabel(setup.car_map, task.zone);

/** "wheel rim, front left"; "front left" where the part is not known. */
function thingOf(setup: EventSetup, job: string): string {
  const [zone = "", component = ""] = job.split("/");
  const where = small(zoneLabel(setup.car_map, zone));
  return component === "unknown" ? where : `${small(componentLabel(setup.car_map, component))}, ${where}`;
}

// A task's name is what is done, then where: "wheel-nut-torque front-left", "swap front-left/wheel".
const nameBefore = ({ task }: PlanTask) => task.split(" ")[0] ?? task;

/** A done task, of which the plan keeps but the name and the job. */
export function doneLabel(setup: EventSetup, { task, job }: { task: string; job: string | null }): string {
  const [first = "", second = "", zone = ""] = task.split(" ");
  const isStep = first === "open" || first === "close";
  // What is done to a job is one word ("swap"), a check's name has several ("hub-nut-torque").
  const kind = isStep || first === "inspect" || first === "routine" ? first : first.includes("-") ? "check" : "work";
  const made = { kind, task, job, jobs: [] as string[], step: isStep ? second : null, zone: isStep ? zone : second };
  return taskLabel(setup, made as PlanTask);
}

const RENEWS = /^routine renew ([^/]+\/[^/]+)$/;

/** "Spanner check"; "Renew floor guards, under the middle" of what is due by its life. */
function routineLabel(setup: EventSetup, task: string): string {
  const job = RENEWS.exec(task)?.[1];
  return job ? `${plain("renew")} ${thingOf(setup, job)}` : plain(task.replace(/^routine /, ""));
}

/** What is left out or comes in: a job, or routine work by its name. */
export function groupLabel(setup: EventSetup, group: string): string {
  if (group.startsWith("routine ")) return routineLabel(setup, group);
  return group.includes("/") ? jobLabel(setup.car_map, group) : plain(group.replace(/^routine /, ""));
}

/** The same with the thing first, where something is said of it or many stand in a row: "Mirror, right side". */
export function thingLabel(setup: EventSetup, group: string): string {
  if (group.startsWith("routine ") || !group.includes("/")) return groupLabel(setup, group);
  const thing = thingOf(setup, group);
  return `${thing.charAt(0).toUpperCase()}${thing.slice(1)}`;
}

/** Unix ms of the tasks' zero: when work can start, else when the car came in, or is to; null where no clock is known. */
export function zeroOf(plan: ShownPlan, setup: EventSetup): number | null {
  const arrive = setup.services.find((one) => one.service === plan.service)?.arrive ?? null;
  const at = plan.starts_at ?? plan.entered_at ?? arrive;
  return at === null ? null : msOf(at);
}

/** A time of the plan: "09:31", or "minute 12" where no clock is known. */
export function clockAt(plan: ShownPlan, setup: EventSetup, s: number): string {
  const zero = zeroOf(plan, setup);
  return zero === null ? `${Math.floor(s / 60)}′` : clockIn(setup.timezone, zero + s * 1000);
}

/** "09:31–09:35"; one time where both fall into one minute. */
export function spanOf(plan: ShownPlan, setup: EventSetup, task: PlanTask): string {
  const [from, to] = [clockAt(plan, setup, task.start_s), clockAt(plan, setup, task.end_s)];
  return from === to ? from : `${from}–${to}`;
}

/** "Bodo and Kasp". */
export const namesOf = (setup: EventSetup, people: string[]): string =>
  people.length === 0 ? words.nobody : words.and(people.map((one) => personName(setup, one)));

/** The address of a task's page. */
export const taskHref = (task: string) => `#/plan/task/${encodeURIComponent(task)}`;

/** How long something takes, as people in a bay say it: 30 s, 45 s, 2 min, 1 h 35. */
export function lasts(seconds: number): string {
  if (seconds < 60) return words.lasts.s(seconds);
  const minutes = Math.round(seconds / 60);
  // Between one minute and two a quarter more or less is told; beyond, nobody plans by it.
  if (seconds < 120 && seconds % 60) return words.lasts.both(1, seconds - 60);
  return minutes <= 90 ? words.lasts.min(minutes) : words.lasts.h(Math.floor(minutes / 60), minutes % 60);
}

/** The id of the head of a person's list of tasks. */
export const listId = (person: string) => `tasks-${person}`;

/** That there is no plan yet, of the service or of the night's work of a car that restarts. */
export function noneOf({ setup, service, overnight }: Pick<Planning, "setup" | "service" | "overnight">): string {
  return overnight ? words.noneOvernight(clockIn(setup.timezone, overnight.by_ms)) : words.none(service.service);
}
