/** Saves that the car has retired, how, and by when it restarts. Loaded when it is first used. */

import { laterMessages } from "../kit/later_messages";
import { localIso } from "../kit/time";
import { entriesOf } from "../report/lists";
import { retirementOf } from "../report/retirement";
import { type RetirementDraft, saidNew } from "../report/retirement_form";
import type { Core } from "./core";
import { newEntry, type Speaker } from "./entry";
import { fail, save } from "./save";

/** Save what is new of a retirement; a correction is a newer entry. Errors: UserError where nothing is new. */
export async function retireCar(core: Core, draft: RetirementDraft): Promise<void> {
  const { held, state } = core.snapshot();
  const entries = entriesOf(held);
  const { retired, restarts } = saidNew(draft, retirementOf(entries, state.car ?? "", state.setup));
  if (!retired && !restarts) return fail(core, laterMessages.retiredSame);
  const build = (by: Speaker, now: number) => [
    ...(retired ? [newEntry("car.retired", null, retired, by, now)] : []),
    ...(restarts ? [newEntry("car.restarts", null, { ready_by: localIso(restarts.by_ms) }, by, now)] : []),
  ];
  await save(core, build, restarts ? laterMessages.restarts : laterMessages.retired);
}

/** The car goes on at once: it had not retired, or was set going again. */
export async function goOn(core: Core): Promise<void> {
  await save(core, (by, now) => [newEntry("car.restarts", null, {}, by, now)], laterMessages.goesOn);
}
