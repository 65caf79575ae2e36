/** Who joined on this phone. Several people may share one. */

import { type Db, type IdentityRecord, write } from "./db";

/** Return everybody who joined here, in the order of joining. */
export async function identitiesHere(db: Db): Promise<IdentityRecord[]> {
  const all = await db.getAll("identities");
  return all.sort((a, b) => (a.joined_at < b.joined_at ? -1 : a.joined_at > b.joined_at ? 1 : 0));
}

/** Keep a person who joined, for good. */
export function keepIdentity(db: Db, identity: IdentityRecord): Promise<void> {
  return write(db, ["identities"], async (tx) => {
    await tx.objectStore("identities").put(identity);
  });
}

/** Change what is kept of an identity, in one transaction; returns it as it is then, or null where it is not here. */
export function changeIdentity(
  db: Db,
  device: string,
  change: (held: IdentityRecord) => Partial<IdentityRecord>,
): Promise<IdentityRecord | null> {
  return write(db, ["identities"], async (tx) => {
    const held = await tx.objectStore("identities").get(device);
    if (!held) return null;
    const changed = { ...held, ...change(held) };
    await tx.objectStore("identities").put(changed);
    return changed;
  });
}

/** Keep whether the server refused a device's token; returns whether that is new. */
export function markRefused(db: Db, device: string, refused: boolean): Promise<boolean> {
  return write(db, ["identities"], async (tx) => {
    const held = await tx.objectStore("identities").get(device);
    const is_new = held !== undefined && held.refused !== refused;
    if (is_new) await tx.objectStore("identities").put({ ...held, refused });
    return is_new;
  });
}

/**
 * Return the identity that a person speaks with: the last one joined, one that was not refused before one that was.
 */
export function speakingAs(identities: IdentityRecord[], person: string | null): IdentityRecord | null {
  const own = identities.filter((one) => one.person === person);
  return own.filter((one) => !one.refused).at(-1) ?? own.at(-1) ?? null;
}
