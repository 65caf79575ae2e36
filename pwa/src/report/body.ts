/** What a version of a report says, with every field there. */

import type { Entry, Position, ReportBody } from "../kit/api";

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
  note_page: null,
  position: null,
};

const bodies = new WeakMap<Entry, ReportBody>();

/** Return the body of a version, absent fields filled in; a withdrawn version says nothing. Entries never change. */
export function bodyOf(version: Entry): ReportBody {
  const known = bodies.get(version);
  if (known) return known;
  const body = readBody(version);
  bodies.set(version, body);
  return body;
}

function readBody(version: Entry): ReportBody {
  if (version.kind !== "report.filed" && version.kind !== "report.amended") return { ...EMPTY_BODY };
  const values = Object.values(version.data);
  const said = values.every((one) => one != null)
    ? version.data
    : Object.fromEntries(Object.entries(version.data).filter(([, value]) => value != null));
  const { replaces: _, ...body } = { ...EMPTY_BODY, ...said } as ReportBody & { replaces?: string[] };
  const note_page = typeof body.note_page === "number" ? body.note_page : null;
  // A decimal may come as text ("7.30"), which keeps its digits; people read it as a number.
  const km = body.km === null ? null : Number(body.km);
  return { ...body, note_page, position: positionOf(body.position), km: Number.isFinite(km) ? km : null };
}

function positionOf(said: ReportBody["position"]): Position | null {
  if (said === null || typeof said !== "object") return null;
  const [lat, lon] = [Number(said.lat), Number(said.lon)];
  const accuracy_m = said.accuracy_m == null ? null : Number(said.accuracy_m);
  return Number.isFinite(lat) && Number.isFinite(lon) ? { lat, lon, accuracy_m } : null;
}
