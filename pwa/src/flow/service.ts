/** Saves where the car is and who drives it: in and out of a service or a control, the driver asked in the bay. */

import type { DataOf } from "../kit/api";
import { laterMessages } from "../kit/later_messages";
import { messages } from "../kit/messages";
import { type Control, noWork } from "../report/controls";
import { entriesOf } from "../report/lists";
import type { Core } from "./core";
import { newEntry, type Speaker } from "./entry";
import type { Draft } from "./model";
import { bare } from "./reports";
import { fail, save } from "./save";

/** The car came into service; that ends every control that this phone knows it to be in. */
export async function enterService(core: Core, service: string, official_time: string): Promise<void> {
  const ends = openControls(core);
  const build = (by: Speaker, now: number) => [
    newEntry("service.entered", null, { service, official_time }, by, now),
    ...(ends.length > 0 ? [newEntry("control.left", null, { ends, official_time }, by, now)] : []),
  ];
  await save(core, build, laterMessages.inService(service));
  // From now on the crew may see the queue, which was not even asked for on the road.
  void core.askAnswers();
}

/** The car left service. */
export async function leaveService(core: Core, service: string, official_time: string): Promise<void> {
  const data = { service, official_time };
  await save(core, (by, now) => [newEntry("service.left", null, data, by, now)], laterMessages.outOfService(service));
}

/** From now on this person drives. */
export async function changeDriver(core: Core, driver: string): Promise<void> {
  await save(core, (by, now) => [newEntry("driver.changed", null, { driver }, by, now)], messages.saved);
}

/** The car stands where nobody may work on it; `official_time` as HH:MM. */
export async function enterControl(core: Core, control: Control, official_time: string): Promise<void> {
  const data = { control, official_time };
  await save(core, (by, now) => [newEntry("control.entered", null, data, by, now)], laterMessages.controlIn);
}

/** End every control that this phone knows the car to be in. Errors: UserError where it knows of none. */
export async function leaveControl(core: Core, official_time: string): Promise<void> {
  const ends = openControls(core);
  if (ends.length === 0) return fail(core, laterMessages.controlGone);
  const data = { ends, official_time };
  await save(core, (by, now) => [newEntry("control.left", null, data, by, now)], laterMessages.controlOut);
}

/** Save what the driver said, and in the same go the report of what is not as before, if any. */
export async function askDriver(core: Core, asked: DataOf["driver.asked"], report: Draft | null): Promise<void> {
  const build = (by: Speaker, now: number) => [
    newEntry("driver.asked", null, asked, by, now),
    ...(report ? [newEntry("report.filed", "own", bare(report), by, now)] : []),
  ];
  await save(core, build, report ? laterMessages.askedReport : laterMessages.askedSame);
}

/** The ids of the `control.entered` entries that nothing has ended, as this phone knows it. */
function openControls(core: Core): string[] {
  const { held, state } = core.snapshot();
  const entries = entriesOf(held);
  return noWork(entries, state.car ?? "", state.setup)?.open.map((entry) => entry.id) ?? [];
}
