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
  const { data } = version;
  // Most say what they say and no more: a season has thousands, and each copy is felt at the start.
  const isPlain = !("replaces" in data) && Object.values(data).every((value) => value != null);
  const body = { ...EMPTY_BODY, ...(isPlain ? data : withoutGaps(data)) } as ReportBody;
  if (typeof body.note_page !== "number") body.note_page = null;
  // A decimal may come as text ("7.30"), which keeps its digits; people read it as a number.
  const km = body.km === null ? null : Number(body.km);
  body.km = Number.isFinite(km) ? km : null;
  if (body.position !== null) body.position = positionOf(body.position);
  return body;
}

function withoutGaps(data: object): Partial<ReportBody> {
  return Object.fromEntries(Object.entries(data).filter(([name, value]) => value != null && name !== "replaces"));
}

function positionOf(said: ReportBody["position"]): Position | null {
  if (said === null || typeof said !== "object") return null;
  const [lat, lon] = [Number(said.lat), Number(said.lon)];
  const accuracy_m = said.accuracy_m == null ? null : Number(said.accuracy_m);
  return Number.isFinite(lat) && Number.isFinite(lon) ? { lat, lon, accuracy_m } : null;
}
