/** Where a car arrives: into and out of a control where nobody may work on it, the driver asked in the bay. */

import { openControls } from "./controls";
import type { Core } from "./core";
import { newEntry, type Speaker } from "./entry";
import type { Actions } from "./model";
import { bare } from "./reports";
import { fail, save } from "./save";

type ArrivingActions = Pick<Actions, "enterControl" | "leaveControl" | "askDriver">;

/** Make the actions. */
export function arrivingActions(core: Core): ArrivingActions {
  return {
    async enterControl(control, official_time) {
      const data = { control, official_time };
      await save(core, (by, now) => [newEntry("control.entered", null, data, by, now)], "Saved: nobody works on it.");
    },
    async leaveControl(official_time) {
      const ends = openControls(core);
      if (ends.length === 0) return fail(core, "The car is out of the control already: nothing was saved.");
      const data = { ends, official_time };
      await save(core, (by, now) => [newEntry("control.left", null, data, by, now)], "Saved: out of the control.");
    },
    async askDriver(asked, report) {
      const build = (by: Speaker, now: number) => [
        newEntry("driver.asked", null, asked, by, now),
        ...(report ? [newEntry("report.filed", "own", bare(report), by, now)] : []),
      ];
      await save(core, build, report ? "Saved: what is not as before is a report now." : "Saved: all as before.");
    },
  };
}
