/** Saves what the crew reports: hits, changes of a report, a stage on which nothing was seen. */

import type { ReportBody } from "../kit/api";
import { messages } from "../kit/messages";
import { entriesOf, ofCar } from "../report/lists";
import { idSet } from "../report/order";
import { headsOf, isVersion } from "../report/versions";
import type { Core } from "./core";
import { newEntry } from "./entry";
import type { Draft } from "./model";
import { fail, save } from "./save";

/** Save a report; returns its id. The screen itself says that it is kept. Errors: UserError. */
export async function fileReport(core: Core, draft: Draft): Promise<string> {
  const [entry] = await save(core, (by, now) => [newEntry("report.filed", "own", bare(draft), by, now)], null);
  if (core.page.position && entry) await (await import("./locating")).keepPosition(core, entry.id);
  return entry?.id ?? "";
}

/** Save several reports in one go: all are on the disk, or none. Errors: UserError. */
export async function fileReports(core: Core, drafts: Draft[]): Promise<void> {
  await save(
    core,
    (by, now) => drafts.map((draft) => newEntry("report.filed", "own", bare(draft), by, now)),
    messages.savedReports(drafts.length),
  );
}

/** Save a new version, which replaces all heads of the report. Errors: UserError. */
export async function amendReport(core: Core, report: string, draft: Draft): Promise<void> {
  const replaces = await headIds(core, report);
  const build = () => ({ ...bare(draft), replaces });
  await save(core, (by, now) => [newEntry("report.amended", report, build(), by, now)], messages.amended);
}

/** Withdraw a report: it stays in the log, and stands for nothing. Errors: UserError. */
export async function withdrawReport(core: Core, report: string, reason: string): Promise<void> {
  const data = { replaces: await headIds(core, report), reason };
  await save(core, (by, now) => [newEntry("report.withdrawn", report, data, by, now)], messages.withdrawn);
}

/** Save that nothing was seen on a stage. Errors: UserError. */
export async function nothingSeen(core: Core, stage: string, how: "from-seat" | "walked-round"): Promise<void> {
  const data = { stage, how };
  await save(core, (by, now) => [newEntry("stage.nothing_seen", null, data, by, now)], messages.nothingSeen(stage));
}

/** Return a body without what was not said: absent and null mean the same, and take no room in the entry. */
export function bare(body: ReportBody): Partial<ReportBody> {
  return Object.fromEntries(Object.entries(body).filter(([, value]) => value !== null && value !== ""));
}

async function headIds(core: Core, report: string): Promise<string[]> {
  const { held, state } = core.snapshot();
  const versions = ofCar(entriesOf(held), state.car ?? "").filter((entry) => entry.subject === report);
  const heads = headsOf(versions.filter(isVersion));
  if (heads.length === 0) return fail(core, messages.noReport);
  return idSet(heads.map((head) => head.id));
}
