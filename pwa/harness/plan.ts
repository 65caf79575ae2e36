/** The plan of the fixture's service, every field filled, with its own people. */

import type { HeldPlan } from "../src/flow/model";
import { heldPlan, made_plan } from "../tests/plan_made";
import { NOW, setup } from "./fixture";

const NAMES: Record<string, string> = { "p-bodo": "p-tove", "p-kasp": "p-gard", "p-odil": "p-wren" };
const named = (person: string) => NAMES[person] ?? person;

export const held_plan: HeldPlan = heldPlan(
  {
    event: setup.event,
    people: made_plan.people.map((one) => ({ ...one, person: named(one.person) })),
    tasks: made_plan.tasks.map((one) => ({ ...one, people: one.people.map(named) })),
    done: made_plan.done.map((one) => ({ ...one, person: named(one.person) })),
  },
  { heard_at: new Date(NOW).toISOString(), arrivals: 99 },
);
