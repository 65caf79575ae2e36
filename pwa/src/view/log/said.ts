/** A report body as one or two short lines of words. Pure. */

import type { CarMap, ReportBody } from "../../kit/api";
import { componentLabel, conditionLabel, symptomLabel, zoneLabel } from "../labels";
import { common } from "../words/common";

/** "Front left: Wheel bent, Tyre flat; Vibration growing with speed". */
export function whatSaid(body: ReportBody, map: CarMap): string {
  const findings = body.findings.map(({ component, condition }) =>
    common.partIs(componentLabel(map, component), conditionLabel(condition)),
  );
  const symptoms = body.symptoms.map((code) => symptomLabel(map, code));
  const seen = [findings.join(", "), symptoms.join(", ")].filter(Boolean).join("; ");
  if (body.zone === null && seen) return seen;
  return seen ? common.and(zoneLabel(map, body.zone), seen) : zoneLabel(map, body.zone);
}

/** "SS4, km 6.1", "SS4, note page 23", or the kind of place where there is no stage. */
export function whereSaid(body: ReportBody): string {
  const stage = body.stage ?? "";
  const where = body.where === "stage" && stage ? "" : (common.where[body.where] ?? body.where);
  const km = body.km === null ? "" : common.km(body.km);
  const page = body.note_page === null ? "" : common.notePage(body.note_page);
  return [stage, km, page, where].filter(Boolean).join(", ");
}
