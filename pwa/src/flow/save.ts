/** Puts down what a person did: on the disk first, then on the screen, then on its way. */

import type { Entry } from "../kit/api";
import { UserError } from "../kit/user_error";
import { isVoidable } from "../report/voided";
import { addEntries, type NewEntry } from "../store/entries";
import { learn } from "../store/put_back";
import { type Core, say } from "./core";
import type { Speaker } from "./entry";
import { messages } from "../kit/messages";

/** Entries that one tap made together are undone together. */
const madeTogether = new Map<string, string[]>();

/** Return the ids that undoing an entry takes back. */
export function togetherWith(id: string): string[] {
  return madeTogether.get(id) ?? [id];
}

/**
 * Save the entries that `build` makes for the person, event and car of this tab; settles when they are on the disk.
 *
 * done: the sentence that says so, null where the screen itself does. add: what writes them.
 * Errors: UserError with a sentence for the person, which is shown as well, where nobody has joined, no car is chosen or
 * the phone is full.
 */
export async function save(
  core: Core,
  build: (speaker: Speaker, now_ms: number) => NewEntry[],
  done: string | null,
  add: typeof addEntries = addEntries,
) {
  const now_ms = core.now();
  const drafts = build(await speakerOf(core), now_ms);
  const entries = await onDisk(core, drafts, now_ms, add);
  const undo = undoOf(entries);
  if (done === null) core.page.message = null;
  else say(core, done, undo);
  await core.refresh();
  core.written();
  return entries;
}

async function onDisk(core: Core, drafts: NewEntry[], now_ms: number, add: typeof addEntries): Promise<Entry[]> {
  try {
    const held_at = new Date(now_ms).toISOString();
    const entries = await add(await core.db, drafts, held_at);
    learn(core.snapshot().known, entries, held_at);
    return entries;
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return fail(core, isFull(error) ? messages.full : messages.writeFailed);
  }
}

/** Say whether a store's error means that the phone is full. */
export function isFull(error: unknown): boolean {
  return error instanceof DOMException && error.name === "QuotaExceededError";
}

/** Show a sentence and give up with it. Errors: UserError. */
export async function fail(core: Core, text: string): Promise<never> {
  say(core, text);
  await core.refresh();
  throw new UserError(text);
}

async function speakerOf(core: Core): Promise<Speaker> {
  const { speaking, state } = core.snapshot();
  if (!speaking) return fail(core, messages.nobodyJoined);
  if (!state.setup || !state.car) return fail(core, messages.carFirst);
  return { person: speaking.person, device: speaking.device, event: state.setup.event, car: state.car };
}

function undoOf(entries: Entry[]): string | null {
  const first = entries[0];
  if (!first || !entries.every(isVoidable)) return null;
  madeTogether.set(
    first.id,
    entries.map((entry) => entry.id),
  );
  return first.id;
}
