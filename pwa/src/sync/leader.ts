/** One tab at a time: under a Web Lock, or a lease in the store where the browser has none. */

import { orElse } from "../kit/patience";
import { type Db, type Write, write } from "../store/db";

/** Another tab may take over so long after the holder's last beat. */
export const LEASE_MS = 3_000;

/** Some browsers round their clocks, each tab on its own: a lease may seem to end later than it can by so much. */
const ROUNDED_MS = 1_000;

/** A lock that is asked for only if it is free is answered at once where locks work at all. */
const PATIENCE_MS = 2_000;

/** `navigator.locks`, or null in a browser without it. */
export type Locks = Pick<LockManager, "request">;

/** Return the browser's Web Locks; null where it has none, refuses them or does not answer. */
export function workingLocks(locksHere: () => Locks | undefined): Promise<Locks | null> {
  return orElse(
    async () => {
      const locks = locksHere();
      await locks?.request("shuntbook-probe", { ifAvailable: true }, () => {});
      return locks ?? null;
    },
    null,
    PATIENCE_MS,
  );
}

interface Lease {
  holder: string;
  until_ms: number;
}

/** Run `work` if no other tab is at it; returns whether it ran. */
export async function takeLead(
  db: Db,
  holder: string,
  now: () => number,
  work: () => Promise<void>,
  locks: Locks | null,
): Promise<boolean> {
  return locks ? underLock(locks, work) : underLease(db, holder, now, work);
}

async function underLock(locks: Locks, work: () => Promise<void>): Promise<boolean> {
  return await locks.request("shuntbook-outbox", { ifAvailable: true }, async (lock) => {
    if (lock) await work();
    return lock !== null;
  });
}

async function underLease(db: Db, holder: string, now: () => number, work: () => Promise<void>): Promise<boolean> {
  if (!(await renew(db, holder, now))) return false;
  const beat = setInterval(() => void renew(db, holder, now), LEASE_MS / 4);
  try {
    await work();
  } finally {
    clearInterval(beat);
    await giveUp(db, holder);
  }
  return true;
}

// A lease that ends later than any could have been given was written under another clock: it is void. The clock is read
// only once the lease is: read before, while this write waited for another tab's, it would find that tab's lease too late.
async function renew(db: Db, holder: string, now: () => number): Promise<boolean> {
  return write(db, ["meta"], async (tx) => {
    const lease = await leaseIn(tx);
    const now_ms = now();
    const isOurTime = lease && lease.until_ms <= now_ms + LEASE_MS + ROUNDED_MS;
    const taken = isOurTime && lease.holder !== holder && lease.until_ms > now_ms;
    if (!taken) await tx.objectStore("meta").put({ holder, until_ms: now_ms + LEASE_MS } satisfies Lease, "lease");
    return !taken;
  });
}

async function giveUp(db: Db, holder: string): Promise<void> {
  await write(db, ["meta"], async (tx) => {
    if ((await leaseIn(tx))?.holder === holder) await tx.objectStore("meta").put(null, "lease");
  });
}

async function leaseIn(tx: Write<"meta">): Promise<Lease | null> {
  return ((await tx.objectStore("meta").get("lease")) as Lease | null | undefined) ?? null;
}
