/** Keeps a walk that is under way, signs it, puts down readings. Loaded when it is first used. */

import { UserError } from "../kit/user_error";
import type { NewReading } from "../report/readings";
import { bodyOfMark, signersOf, type WalkDraft, walkData } from "../report/walk_draft";
import { MOST_KIT, MOST_MARKS } from "../report/walk_list";
import type { NewEntry } from "../store/entries";
import { keepHeardPhoto, photoHere } from "../store/photos";
import { dropWalkDraft, keepWalkDraft, walkDraftHere } from "../store/walks";
import { serverBlob } from "./blobs";
import type { Core } from "./core";
import { newEntry, type Speaker } from "./entry";
import type { Draft } from "./model";
import { keepPhoto } from "./photos";
import { bare } from "./reports";
import { fail, isFull, save } from "./save";
import { laterMessages } from "../kit/later_messages";

/** Return the walk under way of the chosen car, or null. */
export async function walkDraft(core: Core): Promise<WalkDraft | null> {
  const at = placeOf(core);
  return at && walkDraftHere(await core.db, at.event, at.car);
}

/** Keep a walk as it is now. Errors: UserError. */
export async function keepDraft(core: Core, draft: WalkDraft): Promise<void> {
  const at = placeOf(core);
  if (!at) return fail(core, laterMessages.walkCarFirst);
  try {
    await keepWalkDraft(await core.db, at.event, at.car, draft);
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return fail(core, isFull(error) ? laterMessages.walkFull : laterMessages.walkNotWritten);
  }
}

/** Give a walk up. */
export async function dropDraft(core: Core): Promise<void> {
  const at = placeOf(core);
  if (at) await dropWalkDraft(await core.db, at.event, at.car);
}

function placeOf(core: Core): { event: string; car: string } | null {
  const { setup, car } = core.snapshot().state;
  return setup && car !== null ? { event: setup.event, car } : null;
}

/**
 * Sign a walk. `drawn`: pictures of the signatures, by place among the signers, null where nobody drew. Pictures
 * are kept, then the marks' reports and the walk are written together, and
 * the draft is forgotten. Returns the walk's id. Errors: UserError; the draft is there as before.
 */
export async function signWalk(core: Core, draft: WalkDraft, drawn: (Blob | null)[]): Promise<string> {
  if (draft.marks.length > MOST_MARKS || draft.kit.length > MOST_KIT)
    throw new UserError(laterMessages.walkLong(MOST_MARKS, MOST_KIT));
  const signed: Parameters<typeof walkData>[2] = [];
  for (const [place, { side, name, how }] of signersOf(draft).entries()) {
    const picture = drawn[place] ?? null;
    const photo = picture && (await keepPhoto(core, picture));
    signed.push({ side, name: name.trim(), how, ...(photo ? { photo } : {}) });
  }
  const entries = await save(core, (by, now) => entriesOf(draft, signed, by, now), laterMessages.walkSigned);
  await dropDraft(core);
  return entries.at(-1)?.id ?? "";
}

function entriesOf(draft: WalkDraft, signed: Parameters<typeof walkData>[2], by: Speaker, now: number): NewEntry[] {
  const marks = draft.marks.map((mark) => newEntry("report.filed", "own", bare(bodyOfMark(mark, draft.walk)), by, now));
  const data = walkData(
    draft,
    marks.map((mark) => mark.id),
    signed,
  );
  return [...marks, newEntry("handover.signed", null, data, by, now)];
}

/** Fetch photos that are not here and keep them; what can't be had or kept now is left out. */
export async function holdPhotos(core: Core, photos: string[]): Promise<void> {
  for (const photo of photos) {
    if (!(await hold(core, photo))) return;
  }
}

/** False where the phone is full. */
async function hold(core: Core, photo: string): Promise<boolean> {
  const db = await core.db;
  if (await photoHere(db, photo)) return true;
  const blob = await serverBlob(core, photo);
  if (!blob) return true;
  const held_at = new Date(core.now()).toISOString();
  try {
    await keepHeardPhoto(db, { photo, bytes: await blob.arrayBuffer(), type: blob.type }, held_at);
    return true;
  } catch (error) {
    // They only spare a look without a network: the walk goes on without them.
    if (error instanceof DOMException) return false;
    throw error;
  }
}

/** Put down readings, and the report that they call for, in one go. */
export async function takeReadings(core: Core, readings: NewReading[], report: Draft | null): Promise<void> {
  const done = laterMessages.readingsSaved(readings.length);
  await save(
    core,
    (by, now) => [
      ...readings.map((one) => newEntry("reading.taken", null, one, by, now)),
      ...(report ? [newEntry("report.filed", "own", bare(report), by, now)] : []),
    ],
    report ? `${done} ${laterMessages.brakesReported}` : done,
  );
}
