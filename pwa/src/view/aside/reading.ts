/** What can be read of an entry that was set aside. Pure. */

import type { Aside, Entry, EventSetup } from "../../kit/api";
import { msOf } from "../../kit/time";
import { timeOf } from "../labels";

/** Codes of whole entries that only somebody's word would make count. */
const UNPROVEN = ["unsigned", "unknown-device", "bad-signature", "wrong-author", "shut-out"];

/**
 * Whether it can be accepted: what its author signed at an odd time always, what a manager's word alone would show only
 * in a rebuild, an inspection never.
 */
export function canAccept(item: Aside, rebuild: boolean): boolean {
  if (item.code === "odd-time") return true;
  return rebuild && UNPROVEN.includes(item.code) && !isInspection(item);
}

/** Whether its text is an inspection, which its inspector says again. */
export const isInspection = (item: Aside) => entryIn(item.raw)?.kind.startsWith("inspection.") ?? false;

/** Whether its text is an entry of the right shape, so that what it says can be shown in words. */
export const isWhole = ({ code }: Aside) => [...UNPROVEN, "no-pin", "odd-time", "conflict"].includes(code);

/** Return the entry in the text, or null where it is none that can be read. */
export function entryIn(raw: string): Entry | null {
  try {
    const value: unknown = JSON.parse(raw);
    return isEntry(value) ? value : null;
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}

function isEntry(value: unknown): value is Entry {
  if (typeof value !== "object" || value === null) return false;
  const fields = value as Record<string, unknown>;
  const isText = (name: string) => typeof fields[name] === "string";
  return (
    ["id", "kind", "car", "at", "device", "person"].every(isText) && typeof fields.data === "object" && !!fields.data
  );
}

/** A time as the event's clock has it. */
export const timeShown = (setup: EventSetup | null, at: string) =>
  setup && msOf(at) !== null ? timeOf(setup, at) : at;
