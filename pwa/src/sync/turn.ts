/** One tab at a time: under a Web Lock, or a lease in the store where the browser has none. */

import { type Db, type Write, write } from "../store/db";

/** Another tab takes over within this time after the holder died. */
export const LEASE_MS = 4_000;

/** `navigator.locks`, or null in a browser without it. */
export type Locks = Pick<LockManager, "request">;

interface Lease {
  holder: string;
  until_ms: number;
}

/** Run `work` if no other tab is at it; returns whether it ran. */
export async function takeTurn(
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
  if (!(await renew(db, holder, now()))) return false;
  const beat = setInterval(() => void renew(db, holder, now()), LEASE_MS / 4);
  try {
    await work();
  } finally {
    clearInterval(beat);
    await giveUp(db, holder);
  }
  return true;
}

// A lease that ends later than any could have been given was written under another clock: it is void.
async function renew(db: Db, holder: string, now_ms: number): Promise<boolean> {
  return write(db, ["meta"], async (tx) => {
    const lease = await leaseIn(tx);
    const taken = lease && lease.holder !== holder && lease.until_ms > now_ms && lease.until_ms <= now_ms + LEASE_MS;
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
