/** Photos go out after the entries that name them, one by one; one that fails never holds the others. */

import type { Problem } from "../kit/api";
import { laterMessages } from "../kit/later_messages";
import type { Db, IdentityRecord, PhotoRecord } from "../store/db";
import { identitiesHere, speakingAs } from "../store/identities";
import { markMissing, photoHere, settlePhoto, waitingPhotos } from "../store/photos";
import { call, type Fetch, isObject, type Reply } from "./wire";

const PHOTO_TIMEOUT_MS = 90_000;

export interface PhotosSent {
  reached: boolean;
  changed: boolean;
  retry_after_s: number | null;
}

interface Deps {
  db: Db;
  fetch: Fetch;
  now: () => number;
}

/** In the words of now: it is kept, and read much later. */
const missing = (): Problem => ({
  type: "https://shuntbook.invalid/problems/photo-missing",
  title: laterMessages.photoGone,
  status: 0,
  detail: laterMessages.photoGoneTodo,
});

/** Send every waiting photo. `refused`: devices whose token the server does not take. */
export async function sendPhotos(deps: Deps, person: string | null, refused: ReadonlySet<string>): Promise<PhotosSent> {
  const identities = (await identitiesHere(deps.db)).filter((one) => !refused.has(one.device));
  const sent: PhotosSent = { reached: true, changed: false, retry_after_s: null };
  for (const name of await waitingPhotos(deps.db)) {
    const photo = await photoHere(deps.db, name);
    if (!photo) {
      await markMissing(deps.db, name, new Date(deps.now()).toISOString(), missing());
      sent.changed = true;
      continue;
    }
    const reply = await put(deps, photo, bringerOf(photo, identities, person));
    if (!(await take(deps, photo, reply, sent))) break;
  }
  return sent;
}

function bringerOf(photo: PhotoRecord, identities: IdentityRecord[], person: string | null): IdentityRecord | null {
  const own = identities.find((one) => one.device === photo.device);
  return own ?? speakingAs(identities, person) ?? identities.at(-1) ?? null;
}

function put(deps: Deps, photo: PhotoRecord, identity: IdentityRecord | null): Promise<Reply> {
  return call(deps.fetch, {
    method: "PUT",
    path: `/photos/${photo.photo}`,
    token: identity?.token ?? null,
    bytes: { content: photo.bytes, type: photo.type },
    timeout_ms: PHOTO_TIMEOUT_MS,
  });
}

/** Take a reply in; false where the others need not be tried now. */
async function take(deps: Deps, photo: PhotoRecord, reply: Reply, sent: PhotosSent): Promise<boolean> {
  // A 200 alone may be anybody's: only an answer that names the photo is the server's.
  if (reply.kind === "ok" && isObject(reply.body) && reply.body.photo === photo.photo) {
    await settlePhoto(deps.db, photo.photo, null);
    sent.changed = true;
    return true;
  }
  if (reply.kind === "problem" && [400, 413, 415, 422].includes(reply.status)) {
    await settlePhoto(deps.db, photo.photo, reply.problem);
    sent.changed = true;
    return true;
  }
  if (reply.kind === "problem") return true;
  sent.reached = false;
  sent.retry_after_s = reply.kind === "unreachable" ? reply.retry_after_s : null;
  return false;
}
