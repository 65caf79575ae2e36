/** What a version of a report says, with every field there. */

import type { Entry, ReportBody } from "../kit/api";

/** A body that says nothing yet. */
export const EMPTY_BODY: ReportBody = {
  stage: null,
  km: null,
  where: "unknown",
  zone: null,
  direction: null,
  cause: "unknown",
  caused_by: null,
  findings: [],
  symptoms: [],
  drives: null,
  photos: [],
  note: "",
};

/** Return the body of a version, absent fields filled in; a withdrawn version says nothing. */
export function bodyOf(version: Entry): ReportBody {
  if (version.kind !== "report.filed" && version.kind !== "report.amended") return { ...EMPTY_BODY };
  const said = Object.fromEntries(Object.entries(version.data).filter(([, value]) => value != null));
  const { replaces: _, ...body } = { ...EMPTY_BODY, ...said } as ReportBody & { replaces?: string[] };
  // A decimal may come as text ("7.30"), which keeps its digits; people read it as a number.
  const km = body.km === null ? null : Number(body.km);
  return { ...body, km: Number.isFinite(km) ? km : null };
}
