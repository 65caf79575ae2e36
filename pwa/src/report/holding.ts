/**
 * How a voice note is recorded by one button: hold it and let go, or tap it and tap again. Pure.
 *
 * A finger in a wet glove lets go by itself, a switch or a screen reader can't hold: both find the second way without
 * being told. All times are Unix ms.
 */

/** Shorter than this is a tap: it goes on recording until the next one. */
const TAP_MS = 500;
/** The phone asked its person for leave if it took longer than this: nobody expects to be recorded after. */
const ASKED_MS = 1_000;
/** A note ends by itself; longer is not listened to. */
export const LONGEST_MS = 60_000;

export type Holding =
  | { at: "idle" }
  | { at: "asking"; pressed_ms: number; held: boolean }
  | { at: "recording"; pressed_ms: number; since_ms: number; held: boolean };

export type Happening = "pressed" | "released" | "granted" | "refused" | "clock";

/** What is to be done: ask for the microphone, keep what was said, or let the microphone go again. */
export type Deed = "ask" | "keep" | "drop" | null;

export const IDLE: Holding = { at: "idle" };

/** Return how it stands after something happened, and what is to be done. */
export function after(now: Holding, what: Happening, now_ms: number): [Holding, Deed] {
  if (now.at === "idle") {
    return what === "pressed" ? [{ at: "asking", pressed_ms: now_ms, held: true }, "ask"] : [now, null];
  }
  if (now.at === "asking") return afterAsking(now, what, now_ms);
  const over = now_ms - now.since_ms >= LONGEST_MS;
  if (what === "pressed" || (what === "clock" && over)) return [IDLE, "keep"];
  if (what !== "released" || !now.held) return [now, null];
  return now_ms - now.pressed_ms < TAP_MS ? [{ ...now, held: false }, null] : [IDLE, "keep"];
}

function afterAsking(now: Holding & { at: "asking" }, what: Happening, now_ms: number): [Holding, Deed] {
  if (what === "released") return [{ ...now, held: false }, null];
  if (what === "refused") return [IDLE, null];
  if (what !== "granted") return [now, null];
  const since = { at: "recording", pressed_ms: now.pressed_ms, since_ms: now_ms, held: now.held } as const;
  const wasAsked = now_ms - now.pressed_ms > ASKED_MS;
  return !now.held && wasAsked ? [IDLE, "drop"] : [since, null];
}
