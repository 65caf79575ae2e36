/** Judges entries that did not come from the server, by the devices and set-ups that this phone heard of. */

import type { Device, Entry, Problem, Setup } from "../kit/api";
import { laterMessages } from "../kit/later_messages";
import { canSign, isGood } from "../kit/signing";
import { isOddTime } from "../report/timely";
import { setupHere } from "../store/answers";
import type { Db } from "../store/db";
import type { Handed } from "../store/handover";

type Doubt = keyof typeof laterMessages.doubt;

/** Return each entry with the reason why it can't be believed here, or null. The server has the last word. */
export async function judged(db: Db, entries: Entry[]): Promise<Handed[]> {
  const setup = (await setupHere(db))?.answer ?? null;
  const devices = new Map((setup?.devices ?? []).map((device) => [device.device, device]));
  const judge = async (entry: Entry): Promise<Handed> => {
    const doubt = await doubtOf(entry, devices.get(entry.device), isDemanded(setup, entry.event));
    return { entry, problem: doubt && problemOf(doubt) };
  };
  return Promise.all(entries.map(judge));
}

function isDemanded(setup: Setup | null, event: string): boolean {
  return setup?.events.find((one) => one.event === event)?.trust?.signatures !== "off";
}

async function doubtOf(entry: Entry, device: Device | undefined, isDemanded: boolean): Promise<Doubt | null> {
  if (device?.shut_out_at) return "shut-out";
  if (isOddTime(entry)) return "odd-time";
  if (!isDemanded) return null;
  if (!entry.sig) return "unsigned";
  if (!device?.key) return "unknown-device";
  if (device.person !== entry.person) return "wrong-author";
  if (!canSign()) return "unchecked";
  return (await isGood(entry, device.key)) ? null : "bad-signature";
}

function problemOf(doubt: Doubt): Problem {
  return {
    type: `https://shuntbook.invalid/problems/${doubt}`,
    title: laterMessages.doubt[doubt],
    status: 0,
    detail: "",
  };
}
