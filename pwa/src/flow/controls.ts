/** The controls that the chosen car is in, as this phone knows it. */

import { noWork } from "../report/controls";
import type { Core } from "./core";

/** Return the ids of the `control.entered` entries that nothing has ended. */
export function openControls(core: Core): string[] {
  const { held, state } = core.snapshot();
  const entries = held.map((one) => one.entry);
  return noWork(entries, state.car ?? "", state.setup)?.open.map((entry) => entry.id) ?? [];
}
