/** What the crew puts down: reports, nothing seen, in and out of service, who drives. */

import type { ReportBody } from "../kit/api";
import { idSet } from "../report/order";
import { headsOf, isVersion } from "../report/versions";
import { openControls } from "./controls";
import type { Core } from "./core";
import { newEntry, type Speaker } from "./entry";
import type { Actions } from "./model";
import { fail, save } from "./save";
import { said } from "../kit/said";

type ReportActions = Pick<
  Actions,
  | "fileReport"
  | "fileReports"
  | "amendReport"
  | "withdrawReport"
  | "locate"
  | "positionOf"
  | "nothingSeen"
  | "enterService"
  | "leaveService"
  | "changeDriver"
  | "groupReports"
  | "takeApart"
  | "retainPart"
>;

/** Make the actions. */
export function reportActions(core: Core): ReportActions {
  return {
    async fileReport(draft) {
      const [entry] = await save(core, (by, now) => [newEntry("report.filed", "own", bare(draft), by, now)], null);
      if (core.page.position && entry) await (await import("./locating")).keepPosition(core, entry.id);
      return entry?.id ?? "";
    },
    async fileReports(drafts) {
      await save(
        core,
        (by, now) => drafts.map((draft) => newEntry("report.filed", "own", bare(draft), by, now)),
        said.savedReports(drafts.length),
      );
    },
    async amendReport(report, draft) {
      const replaces = await headIds(core, report);
      const build = () => ({ ...bare(draft), replaces });
      await save(core, (by, now) => [newEntry("report.amended", report, build(), by, now)], said.amended);
    },
    async withdrawReport(report, reason) {
      const data = { replaces: await headIds(core, report), reason };
      await save(core, (by, now) => [newEntry("report.withdrawn", report, data, by, now)], said.withdrawn);
    },
    async nothingSeen(stage, how) {
      const data = { stage, how };
      await save(core, (by, now) => [newEntry("stage.nothing_seen", null, data, by, now)], said.nothingSeen(stage));
    },
    async enterService(service, officialTime) {
      const data = { service, official_time: officialTime };
      const ends = openControls(core);
      const build = (by: Speaker, now: number) => [
        newEntry("service.entered", null, data, by, now),
        ...(ends.length > 0 ? [newEntry("control.left", null, { ends, official_time: officialTime }, by, now)] : []),
      ];
      await save(core, build, said.inService(service));
      // From now on the crew may see the queue, which was not even asked for on the road.
      void core.askAnswers();
    },
    async leaveService(service, officialTime) {
      const data = { service, official_time: officialTime };
      await save(core, (by, now) => [newEntry("service.left", null, data, by, now)], said.outOfService(service));
    },
    async changeDriver(driver) {
      await save(core, (by, now) => [newEntry("driver.changed", null, { driver }, by, now)], said.saved);
    },
    locate: async (report) => (await import("./locating")).locate(core, report),
    positionOf: async (report) => (await import("./locating")).positionOf(core, report),
    groupReports: async (...said) => (await import("./hits")).groupReports(core, ...said),
    takeApart: async (incident) => (await import("./hits")).takeApart(core, incident),
    retainPart: async (...said) => (await import("./hits")).retainPart(core, ...said),
  };
}

/** Return a body without what was not said: absent and null mean the same, and take no room in the entry. */
export function bare(body: ReportBody): Partial<ReportBody> {
  return Object.fromEntries(Object.entries(body).filter(([, value]) => value !== null && value !== ""));
}

async function headIds(core: Core, report: string): Promise<string[]> {
  const { held, state } = core.snapshot();
  const versions = held.map((one) => one.entry).filter((entry) => entry.subject === report && entry.car === state.car);
  const heads = headsOf(versions.filter(isVersion));
  if (heads.length === 0) return fail(core, said.noReport);
  return idSet(heads.map((head) => head.id));
}
