/** How taps change a report that is being written. Pure. */

import type { CarMap, Condition, ReportBody } from "../../kit/api";
import { mirrored, otherSide, usualCondition } from "./likely";

/** Another zone: findings go, since components belong to a zone. */
export const atZone = (draft: ReportBody, zone: string): ReportBody =>
  draft.zone === zone ? draft : { ...draft, zone, findings: [] };

/** The component in, with its usual condition, or out. */
export function toggled(draft: ReportBody, map: CarMap, component: string, on: boolean): ReportBody {
  const others = draft.findings.filter((one) => one.component !== component);
  const condition = usualCondition(map, component);
  return { ...draft, findings: on ? [...others, { component, condition }] : others };
}

/** The component's condition as chosen. */
export const withCondition = (draft: ReportBody, component: string, condition: Condition): ReportBody => ({
  ...draft,
  findings: draft.findings.map((one) => (one.component === component ? { component, condition } : one)),
});

export const withSymptom = (draft: ReportBody, symptom: string, on: boolean): ReportBody => ({
  ...draft,
  symptoms: on ? [...draft.symptoms, symptom] : draft.symptoms.filter((one) => one !== symptom),
});

/** The same damage on the other side, as a new report without its photos; null where the car has no other side there. */
export function sameOtherSide(draft: ReportBody, map: CarMap): ReportBody | null {
  const zone = otherSide(map, draft.zone);
  if (zone === null) return null;
  return { ...draft, zone, direction: mirrored(draft.direction), photos: [], caused_by: null };
}

/** Anything that was said is enough: a zone, a symptom, a note, or that it does not drive well. */
export const canSave = ({ zone, symptoms, note, drives, photos }: ReportBody): boolean =>
  zone !== null ||
  symptoms.length > 0 ||
  note.trim() !== "" ||
  photos.length > 0 ||
  drives === "poorly" ||
  drives === "no";

/** Km stays within the stage and never below 0, in steps of 100 m. */
export function steppedKm(km: number | null, by: number, stage_km: number | null): number {
  const next = Math.round(((km ?? 0) + by) * 10) / 10;
  return Math.max(0, stage_km === null ? next : Math.min(next, stage_km));
}
