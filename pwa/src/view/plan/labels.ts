/** A plan's tasks and times in words. Pure. */

import type { EventSetup, PlanTask } from "../../kit/api";
import { clockIn, msOf } from "../../kit/time";
import type { ShownPlan } from "../../report/plan";
import { componentLabel, jobLabel, personName, zoneLabel } from "../labels";
import { stepWords, tasks, plan as words } from "../words/plan";
import { common } from "../words/common";

const plain = (name: string) => tasks.named(name);

/** "wheel rim" for "Wheel rim"; an abbreviation stays as it is. */
const small = (text: string) => (/^.[A-Z0-9]/.test(text) ? text : text.charAt(0).toLowerCase() + text.slice(1));

/** "Swap wheel rim, front left"; "Wheel off, front left"; "Spanner check". */
export function taskLabel(setup: EventSetup, task: PlanTask): string {
  const at = task.zone && task.zone in setup.car_map.zones ? `, ${small(zoneLabel(setup.car_map, task.zone))}` : "";
  if (task.kind === "open" || task.kind === "close") return stepWords(task.step ?? task.task, task.kind) + at;
  if (task.kind === "routine") return plain(task.task.replace(/^routine /, ""));
  const doing = task.kind === "inspect" ? tasks.look : nameBefore(task);
  if (!task.job) return task.kind === "inspect" ? tasks.lookAt(at.replace(", ", "")) : plain(doing) + at;
  const thing = thingOf(setup, task.job);
  return task.kind === "check" ? common.and(plain(doing), thing) : `${plain(doing)} ${thing}`;
}

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
  const made = { kind, task, job, step: isStep ? second : null, zone: isStep ? zone : second };
  return taskLabel(setup, made as PlanTask);
}

/** What is left out or comes in: a job, or routine work by its name. */
export function groupLabel(setup: EventSetup, group: string): string {
  return group.includes("/") ? jobLabel(setup.car_map, group) : plain(group.replace(/^routine /, ""));
}

/** Unix ms of the tasks' zero: when the car came in, else when the itinerary has it in; null where neither is known. */
export function zeroOf(plan: ShownPlan, setup: EventSetup): number | null {
  const arrive = setup.services.find((one) => one.service === plan.service)?.arrive ?? null;
  const at = plan.entered_at ?? arrive;
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
