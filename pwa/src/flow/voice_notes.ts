/** Voice notes: kept on the phone as photos are, sent as they are, heard again without a server. */

import { sha256Of } from "../kit/sha256";
import { keepDraftPhoto, keepHeardPhoto } from "../store/photos";
import { ownBlob, serverBlob } from "./blobs";
import type { Core } from "./core";
import { newEntry } from "./entry";
import { fail, isFull, save } from "./save";
import { laterMessages } from "../kit/later_messages";

/** Keep a note about a report or job; settles when sound and entry are on the disk. Errors: UserError. */
export async function keepVoice(core: Core, subject: string, note: Blob, seconds: number): Promise<void> {
  const bytes = await note.arrayBuffer();
  const voice = sha256Of(new Uint8Array(bytes));
  // Without what a browser adds about the codec: the server tells the kind by the bytes.
  const [type = ""] = note.type.split(";");
  try {
    await keepDraftPhoto(await core.db, { photo: voice, bytes, type }, new Date(core.now()).toISOString());
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return fail(core, isFull(error) ? laterMessages.voiceFull : laterMessages.voiceNotWritten);
  }
  await save(
    core,
    (by, now) => [newEntry("voice.linked", subject, { voice, seconds }, by, now)],
    laterMessages.voiceKept,
  );
}

/** Return a note's sound, from this phone or the server (then kept here, too); null where neither has it now. */
export async function voiceSound(core: Core, voice: string): Promise<Blob | null> {
  const own = await ownBlob(core, voice);
  if (own) return own;
  const heard = await serverBlob(core, voice, undefined, "audio/");
  if (!heard) return null;
  const held_at = new Date(core.now()).toISOString();
  try {
    await keepHeardPhoto(await core.db, { photo: voice, bytes: await heard.arrayBuffer(), type: heard.type }, held_at);
  } catch (error) {
    // A full phone plays it all the same.
    if (!(error instanceof DOMException)) throw error;
  }
  return heard;
}
