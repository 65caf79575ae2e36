/** Signs what was written on this phone: after it is on the disk, before it goes out. */

import type { Entry } from "../kit/api";
import { signatureOf } from "../kit/signing";
import { type Db, write } from "./db";
import { waitingEntries } from "./entries";
import { putEntry } from "./held";
import { identitiesHere } from "./identities";

/**
 * Return what is still to be sent, signed where its device has its key here; each device's in the order of its counter.
 *
 * An entry's number is given inside the transaction that writes it, where WebCrypto can't be waited for: so it is kept
 * unsigned first, and a phone that died in between signs at the next chance. A signature that is there stays.
 */
export async function signedEntries(db: Db): Promise<Entry[]> {
  const waiting = await waitingEntries(db);
  const keys = waiting.some((entry) => !entry.sig) ? await keysHere(db) : new Map<string, CryptoKey>();
  const signed: Entry[] = [];
  for (const entry of waiting) {
    const key = entry.sig ? undefined : keys.get(entry.device);
    const sig = key && (await trySign(entry, key));
    signed.push(sig ? await keepSignature(db, entry, sig) : entry);
  }
  return signed;
}

async function keysHere(db: Db): Promise<Map<string, CryptoKey>> {
  const identities = await identitiesHere(db);
  return new Map(identities.flatMap(({ device, key }) => (key ? [[device, key.private] as const] : [])));
}

// A key that the browser can't use any more must stop no entry: it goes out unsigned, and a manager looks at it.
async function trySign(entry: Entry, key: CryptoKey): Promise<string | null> {
  try {
    return await signatureOf(entry, key);
  } catch (error) {
    if (error instanceof DOMException) return null;
    throw error;
  }
}

// Two tabs may sign the same entry, each signature another: the one that is kept first is the entry's.
function keepSignature(db: Db, entry: Entry, sig: string): Promise<Entry> {
  return write(db, ["entries"], async (tx) => {
    const held = await tx.objectStore("entries").get(entry.id);
    if (!held || held.entry.sig) return held?.entry ?? entry;
    const signed = { ...held.entry, sig };
    await putEntry(tx, { ...held, entry: signed });
    return signed;
  });
}
