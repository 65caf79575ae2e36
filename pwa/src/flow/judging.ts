/** Judges entries that did not come from the server, by the devices and set-ups that this phone heard of. */

import type { Device, Entry, Problem, Setup } from "../kit/api";
import { laterMessages } from "../kit/later_messages";
import { canSign } from "../kit/device_key";
import { isGood } from "../kit/verifying";
import { isKind } from "../report/local_entry";
import { isOddTime } from "../report/timely";
import { setupHere } from "../store/answers";
import type { Db } from "../store/db";
import { entriesHere } from "../store/entries";
import type { Handed } from "../store/handover";
import { lastNumbers } from "../store/shut_outs";

type Doubt = keyof typeof laterMessages.doubt;

/** Return each entry with the reason why it can't be believed here, or null. The server has the last word. */
export async function judged(db: Db, entries: Entry[]): Promise<Handed[]> {
  const setup = (await setupHere(db))?.answer ?? null;
  const devices = new Map((setup?.devices ?? []).map((device) => [device.device, device]));
  const taken = (await entriesHere(db)).filter((one) => one.sending === "sent");
  const last = lastNumbers(
    setup?.devices ?? [],
    taken.map((one) => one.entry),
  );
  const judge = async (entry: Entry): Promise<Handed> => {
    const doubt = await doubtOf(entry, {
      device: devices.get(entry.device),
      last_seq: last.get(entry.device),
      isDemanded: trustOf(setup, entry.event)?.signatures !== "off",
      asksForPin: trustOf(setup, entry.event)?.pin === true,
    });
    return { entry, problem: doubt && problemOf(doubt) };
  };
  return Promise.all(entries.map(judge));
}

const trustOf = (setup: Setup | null, event: string) => setup?.events.find((one) => one.event === event)?.trust;

/** What an entry is judged by; `last_seq`: the last number believed of a device that was shut out, of no other. */
interface Known {
  device: Device | undefined;
  last_seq: number | undefined;
  isDemanded: boolean;
  /** Whether its event takes no inspection of a device without the key of a PIN. */
  asksForPin: boolean;
}

async function doubtOf(entry: Entry, { device, last_seq, isDemanded, asksForPin }: Known): Promise<Doubt | null> {
  if (last_seq !== undefined && entry.seq > last_seq) return "shut-out";
  if (isOddTime(entry)) return "odd-time";
  if (!isDemanded) return null;
  if (!entry.sig) return "unsigned";
  if (!device?.key) return "unknown-device";
  if (device.person !== entry.person) return "wrong-author";
  if (!canSign()) return "unchecked";
  const key = device.second_key && asksPin(entry) ? device.second_key : device.key;
  if (!(await isGood(entry, key))) return "bad-signature";
  return asksForPin && !device.second_key && asksPin(entry) ? "no-pin" : null;
}

/** Whether an entry is signed by the key that only its person's PIN unlocks, where the device has one. */
function asksPin(entry: Entry): boolean {
  if (isKind(entry, "car.released")) return Boolean(entry.data.reason);
  return isKind(entry, "inspection.passed", "inspection.failed");
}

function problemOf(doubt: Doubt): Problem {
  return {
    type: `https://shuntbook.invalid/problems/${doubt}`,
    title: laterMessages.doubt[doubt],
    status: 0,
    detail: "",
  };
}
