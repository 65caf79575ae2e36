/** Takes back what a tap wrote. */

import { messages } from "../kit/messages";
import { entryById } from "../store/entries";
import type { Core } from "./core";
import { newEntry } from "./entry";
import { fail, save, togetherWith } from "./save";

/** Undo an entry, and with it those that the same tap made (an inspection of several jobs). Errors: UserError. */
export async function voidEntry(core: Core, id: string, reason: string): Promise<void> {
  const entry = await entryById(await core.db, id);
  if (!entry) return fail(core, messages.notHereToUndo);
  const data = { voids: togetherWith(id), reason };
  const { event, car, subject = null } = entry;
  await save(core, (by, now) => [newEntry("entry.voided", subject, data, { ...by, event, car }, now)], messages.undone);
}
