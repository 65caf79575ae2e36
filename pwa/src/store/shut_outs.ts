/** The last number believed of a device that was shut out, where the server that shut it out kept none. */

import type { Device, Entry, Setup } from "../kit/api";
import { SETUP_KEY } from "./answers";
import type { EntryRecord, Write } from "./db";
import { allPaged } from "./pages";

/** Return the last number believed of each device that was shut out: the one kept, else the highest that a server took. */
export function lastNumbers(devices: Device[], taken: Entry[]): Map<string, number> {
  const out = devices.filter((one) => one.shut_out_at !== null);
  const numbers = new Map(out.map((one) => [one.device, one.last_seq ?? 0]));
  const open = new Set(out.filter(hasNone).map((one) => one.device));
  for (const { device, seq } of taken) {
    if (open.has(device)) numbers.set(device, Math.max(seq, numbers.get(device) ?? 0));
  }
  return numbers;
}

/**
 * Keep the numbers that follow from what a server took, before all that is here waits to be sent to another server:
 * from then on nothing shows any more what was taken and what was refused.
 */
export async function keepLastNumbers(tx: Write<"entries" | "meta" | "answers">): Promise<void> {
  const held = await tx.objectStore("answers").get(SETUP_KEY);
  const setup = held?.answer as Setup | undefined;
  if (!held || !setup?.devices?.some((one) => one.shut_out_at !== null && hasNone(one))) return;
  const here = [...(await tx.objectStore("entries").getAll()), ...(await allPaged(tx as unknown as Write<"meta">))];
  const numbers = lastNumbers(setup.devices, here.filter(isTaken).map(entryOf));
  const devices = setup.devices.map((one) => ({ ...one, last_seq: numbers.get(one.device) ?? null }));
  await tx.objectStore("answers").put({ ...held, answer: { ...setup, devices } });
}

const hasNone = ({ last_seq }: Device) => last_seq === undefined || last_seq === null;
const isTaken = (one: EntryRecord) => one.sending === "sent" || one.sending === "withheld";
const entryOf = (one: EntryRecord) => one.entry;
