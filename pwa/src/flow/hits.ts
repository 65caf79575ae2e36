/** What is put down for who pays: which reports are of one hit, which broken part is kept. Loaded when it is asked for. */

import { uuid7 } from "../kit/uuid7";
import { groupingsFor, type HitSaid, laterThan, takenApart } from "../report/grouping";
import { type Grouping, standingGroups } from "../report/incidents";
import type { Core } from "./core";
import { newEntry, type Speaker } from "./entry";
import type { KeptPart } from "./model";
import { save } from "./save";
import { laterMessages } from "../kit/later_messages";

/** Put down that reports are of one hit; `edited`: the grouping that this changes, or null. */
export async function groupReports(core: Core, said: HitSaid, edited: string | null): Promise<void> {
  const { held, state } = core.snapshot();
  const counted = held.filter((one) => one.problem === null && one.entry.car === state.car).map((one) => one.entry);
  const made = groupingsFor(said, edited, standingGroups(counted).values());
  await save(core, (by, now) => made.map((data) => grouping(data, by, now)), laterMessages.oneHit);
}

/** Take a grouping apart: its reports stand as if nobody had grouped them. */
export async function takeApart(core: Core, incident: string): Promise<void> {
  await save(core, (by, now) => [grouping(takenApart(incident), by, now)], laterMessages.apart);
}

/** Put down that the broken part of a job is kept. */
export async function retainPart(core: Core, job: string, kept: KeptPart): Promise<void> {
  await save(core, (by, now) => [newEntry("part.retained", job, kept, by, now)], laterMessages.partKept);
}

function grouping(data: Grouping, by: Speaker, now_ms: number) {
  return { ...newEntry("incident.grouped", null, data, by, now_ms), id: uuid7(laterThan(data.replaces ?? [], now_ms)) };
}
