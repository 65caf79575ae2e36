/** The plan of several cars with one crew, as this phone holds it. Pure. */

import type { Entry, EventSetup, Role, TeamPlan } from "../kit/api";
import { chosen } from "./choices";
import { type Choice, type HeldPlan, PLAIN_WISH, type Previous, type ShownPlan } from "./plan";
import { retirementOf } from "./retirement";
import { completed, type SaidPlan } from "./said_plan";
import { currentService, lastServiceEntered } from "./service";

/** What was asked for: which cars at which service, how many mechanics, who is there from which minute, from when on. */
export interface TeamWish {
  service: string;
  cars: string[];
  /** `null`: all of them. */
  mechanics: number | null;
  /** Person → minute of the clock of all from when they are there. */
  away: Record<string, number>;
  /** RFC 3339, from when the rest is planned. */
  at: string | null;
  /** Which of the plans at hand is worked by; the one by the goals where nobody chose. */
  choice?: Choice;
  /** The plan that people worked by when this one was asked for: the server keeps to it as far as can be. */
  previous?: PreviousTeam | undefined;
}

export interface PreviousTeam {
  starts_at: string;
  cars: { car: string; offset_s: number; tasks: Previous }[];
}

/** One car's part; offset_s: when its own clock starts, on the clock of all. */
export type CarPart = ShownPlan & { offset_s: number };

export type ShownTeam = Omit<TeamPlan, "cars"> & { cars: CarPart[] };

/** A team's plan with what was asked for; `arrivals` as of every answer. */
export interface HeldTeam {
  plan: ShownTeam;
  wish: TeamWish;
  /** When the server made it or was asked for it, ISO time on this phone's clock. */
  heard_at: string;
  arrivals: number;
}

/** Return a team's plan with every field there, or null for what is none. */
export function teamOf(body: unknown): ShownTeam | null {
  const said = body as Partial<TeamPlan> | null;
  if (typeof said !== "object" || said === null || typeof said.starts_at !== "string") return null;
  if (!Array.isArray(said.cars) || !said.cars.every((one) => Array.isArray(one.tasks) && Array.isArray(one.left_out)))
    return null;
  const cars = said.cars.map((one) => ({ ...completed(one as SaidPlan), offset_s: one.offset_s ?? 0 }));
  const { event = "", starts_at, proven = false, by = "greedy", finish_s = 0, resources = [] } = said;
  return { event, starts_at, proven, by, finish_s, resources, cars };
}

/** Return one car's part as the plan of a car is held, so that all that is told of one holds of the other. */
export function partHeld({ plan, heard_at, arrivals }: HeldTeam, car: string): HeldPlan | null {
  const part = plan.cars.find((one) => one.car === car);
  return part ? { plan: part, wish: PLAIN_WISH, heard_at, arrivals } : null;
}

/** What a server is told of the team's plan that is shown. */
export function teamShown(held: HeldTeam | null): PreviousTeam | undefined {
  if (!held) return undefined;
  const cars = held.plan.cars.map(({ car, offset_s, tasks }) => ({
    car,
    offset_s,
    tasks: tasks.map(({ task, start_s, people, jobs }) => ({ task, start_s, people, jobs })),
  }));
  return { starts_at: held.plan.starts_at, cars };
}

/** Return the plan with another of those at hand in its place: each is of all cars at once, never of one alone. */
export const chosenTeam = (plan: ShownTeam, choice: Choice): ShownTeam => ({
  ...plan,
  cars: plan.cars.map((one) => ({ ...chosen(one, choice), offset_s: one.offset_s })),
});

/** Return which plans are at hand for all cars: what one car has no other of is the same for it. */
export function teamChoices(plan: ShownTeam): Choice[] {
  const all: Choice[] = ["on-time", "everything", "on-hold"];
  const has = (choice: Choice) =>
    plan.cars.some((one) => one.choice === choice || one.others.some((other) => other.choice === choice));
  return all.filter(has);
}

/** The service that the team works at next, and the cars that are in it or still to come to it. */
export interface Due {
  service: string;
  cars: string[];
}

/**
 * Return what is due: the earliest service that any car is in or comes to next, with the cars that do. A car that has
 * retired comes to none. null after the last service of all.
 */
export function dueOf(entries: Entry[], setup: EventSetup): Due | null {
  const names = setup.services.map((one) => one.service);
  const next = setup.cars.flatMap(({ car }) => {
    if (retirementOf(entries, car, setup)) return [];
    const place = placeOf(entries, car, setup, names);
    return place < names.length ? [{ car, place }] : [];
  });
  const first = Math.min(...next.map((one) => one.place));
  const service = names[first];
  return service === undefined
    ? null
    : { service, cars: next.filter((one) => one.place === first).map((one) => one.car) };
}

function placeOf(entries: Entry[], car: string, setup: EventSetup, names: string[]): number {
  const inside = currentService(entries, car, setup);
  if (inside) return names.indexOf(inside.service);
  const last = lastServiceEntered(entries, car, setup);
  return last ? names.indexOf(last.data.service) + 1 : 0;
}

/** Who leads is told how likely a plan is kept; whoever only repairs has the clock to work by. */
export const leads = (roles: Role[]): boolean => roles.some((role) => role === "inspector" || role === "manager");
