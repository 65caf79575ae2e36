/** Where a car arrives: into and out of a control where nobody may work on it, the driver asked in the bay. */

import { openControls } from "./controls";
import type { Core } from "./core";
import { newEntry, type Speaker } from "./entry";
import type { Actions } from "./model";
import { bare } from "./reports";
import { fail, save } from "./save";
import { said } from "../kit/said";

type ArrivingActions = Pick<Actions, "enterControl" | "leaveControl" | "askDriver">;

/** Make the actions. */
export function arrivingActions(core: Core): ArrivingActions {
  return {
    async enterControl(control, official_time) {
      const data = { control, official_time };
      await save(core, (by, now) => [newEntry("control.entered", null, data, by, now)], said.controlIn);
    },
    async leaveControl(official_time) {
      const ends = openControls(core);
      if (ends.length === 0) return fail(core, said.controlGone);
      const data = { ends, official_time };
      await save(core, (by, now) => [newEntry("control.left", null, data, by, now)], said.controlOut);
    },
    async askDriver(asked, report) {
      const build = (by: Speaker, now: number) => [
        newEntry("driver.asked", null, asked, by, now),
        ...(report ? [newEntry("report.filed", "own", bare(report), by, now)] : []),
      ];
      await save(core, build, report ? said.askedReport : said.askedSame);
    },
  };
}
