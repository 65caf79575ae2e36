/** Where the phone is: asked of it once, kept on it, shared only by who says so. */

import type { Position } from "../kit/api";
import { readPosition, writePosition } from "../store/meta";
import type { Core } from "./core";
import type { Located } from "./model";

/** The radio needs time under trees; after that a person has walked on. */
const PATIENCE_MS = 20_000;
/** A position that old is still this place: the car stands. */
const FRESH_MS = 15_000;

/** For the person to allow it. */
const ASKED_MS = 10_000;

const WHY: Record<number, Exclude<Located, Position>["refused"]> = { 1: "denied", 2: "unavailable", 3: "timeout" };

/** Ask the phone where it is, and keep the answer for a report, or for the one being written (null). */
export async function locate(core: Core, report: string | null): Promise<Located> {
  const located = await ask();
  if ("refused" in located) return located;
  if (report === null) core.page.position = located;
  else await writePosition(await core.db, report, located);
  return located;
}

/** Return what this phone keeps for a report, or for the one being written (null); null where nothing is kept. */
export async function positionOf(core: Core, report: string | null): Promise<Position | null> {
  return report === null ? core.page.position : await readPosition(await core.db, report);
}

/** The report that was being written is filed: what was kept for it belongs to it now. */
export async function keepPosition(core: Core, report: string): Promise<void> {
  const { position } = core.page;
  core.page.position = null;
  if (position) await writePosition(await core.db, report, position);
}

function ask(): Promise<Located> {
  const { geolocation } = navigator;
  if (!geolocation) return Promise.resolve({ refused: "unavailable" });
  return new Promise((answer) => {
    // The browser's own deadline does not count while it asks the person, who may never answer.
    setTimeout(() => answer({ refused: "timeout" }), PATIENCE_MS + ASKED_MS);
    geolocation.getCurrentPosition(
      ({ coords }) =>
        answer({
          lat: rounded(coords.latitude),
          lon: rounded(coords.longitude),
          accuracy_m: Math.ceil(coords.accuracy),
        }),
      ({ code }) => answer({ refused: WHY[code] ?? "unavailable" }),
      { enableHighAccuracy: true, timeout: PATIENCE_MS, maximumAge: FRESH_MS },
    );
  });
}

/** Six decimals are a tenth of a metre; no phone knows more. */
const rounded = (degrees: number) => Math.round(degrees * 1e6) / 1e6;
