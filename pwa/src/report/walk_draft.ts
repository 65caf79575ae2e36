/** A hand-over walk that is under way, as it is kept on the phone from the first tap. Pure. */

import type { Agreement, ComponentFinding, DataOf, ReportBody } from "../kit/api";
import { EMPTY_BODY } from "./body";
import { CORNERS, type Corner, type Fluid, FLUIDS, type Level, USUAL_KIT, type View, VIEWS } from "./walk_list";

export const STEPS = ["photos", "marks", "figures", "kit", "sign"] as const;
export type Step = (typeof STEPS)[number];

/** A mark that was found; `key` tells it from the others of the draft. */
export interface DraftMark {
  key: string;
  zone: string;
  findings: ComponentFinding[];
  photos: string[];
  note: string;
}

/** One who signs. `strokes`: what was drawn, each stroke x, y, x, y … in thousandths of the field's width. */
export interface DraftSignature {
  side: "team" | "customer";
  name: string;
  how: "on-screen" | "not-present" | "refused";
  strokes: number[][];
}

export interface WalkDraft {
  walk: "out" | "return";
  agreement: string | null;
  step: Step;
  /** What was taken or left out so far, by view. */
  photos: Partial<Record<View, { photo: string | null; why_none: string }>>;
  marks: DraftMark[];
  odometer_km: number | null;
  fuel_percent: number | null;
  tread: Partial<Record<Corner, number>>;
  pads: Partial<Record<Corner, number>>;
  fluids: Partial<Record<Fluid, Level>>;
  /** aboard null: not looked at yet. */
  kit: { item: string; aboard: boolean | null }[];
  team: DraftSignature;
  customer: DraftSignature;
  /** The second of the team, where the customer does not sign. */
  witness: DraftSignature;
  note: string;
  /** Only asked when the car comes back; absent in a walk that an older app began. */
  needs_cleaning?: boolean | null;
}

/** What an earlier walk or reading tells a new one to start with. */
export interface WalkStart {
  walk: "out" | "return";
  agreement: Agreement | null;
  /** The name of who has the phone. */
  team: string;
  /** Items of the walk before, or null for the usual ones. */
  kit: string[] | null;
}

/** Return a walk that has just begun. */
export function beginWalk({ walk, agreement, team, kit }: WalkStart): WalkDraft {
  const unsigned = { how: "on-screen" as const, strokes: [] };
  return {
    walk,
    agreement: agreement?.agreement ?? null,
    step: "photos",
    photos: {},
    marks: [],
    odometer_km: null,
    fuel_percent: null,
    tread: {},
    pads: {},
    fluids: {},
    kit: (kit ?? USUAL_KIT).map((item) => ({ item, aboard: null })),
    team: { side: "team", name: team, ...unsigned },
    customer: { side: "customer", name: agreement?.customer ?? "", ...unsigned },
    witness: { side: "team", name: "", ...unsigned },
    note: "",
  };
}

/** Return how many of how many are done, by step; signing has none. */
export function progressOf(draft: WalkDraft): Record<Exclude<Step, "sign">, [done: number, of: number | null]> {
  const figures = [draft.odometer_km, draft.fuel_percent].filter((one) => one !== null).length;
  const corners = Object.keys(draft.tread).length + Object.keys(draft.pads).length;
  return {
    photos: [VIEWS.filter((view) => isDone(draft, view)).length, VIEWS.length],
    marks: [draft.marks.length, null],
    figures: [figures + corners + Object.keys(draft.fluids).length, 2 + 2 * CORNERS.length + FLUIDS.length],
    kit: [draft.kit.filter((one) => one.aboard !== null).length, draft.kit.length],
  };
}

/** Say whether a view was taken, or left out for a reason. */
export function isDone(draft: WalkDraft, view: View): boolean {
  const said = draft.photos[view];
  return said !== undefined && (said.photo !== null || said.why_none !== "");
}

/** Return the views that nobody took or gave a reason for. */
export const viewsLeft = (draft: WalkDraft): View[] => VIEWS.filter((view) => !isDone(draft, view));

/** Give the same reason for every view that is left. */
export function leaveOut(draft: WalkDraft, views: readonly View[], why_none: string): WalkDraft {
  const left = Object.fromEntries(views.map((view) => [view, { photo: null, why_none }]));
  return { ...draft, photos: { ...draft.photos, ...left } };
}

/** Return who signs: the team, the customer, and a second of the team where the customer does not. */
export function signersOf(draft: WalkDraft): DraftSignature[] {
  const alone = draft.customer.how !== "on-screen";
  return alone ? [draft.team, draft.customer, draft.witness] : [draft.team, draft.customer];
}

/** What is still to be said before a walk can be signed. */
export type Lacking = "views" | "team" | "customer" | "witness" | "same-witness";

/** Return what keeps a walk from being signed; none where it can be. */
export function lackingOf(draft: WalkDraft): Lacking[] {
  const lacking: Lacking[] = [];
  const blank = (name: string) => name.trim() === "";
  const alone = draft.customer.how !== "on-screen";
  if (viewsLeft(draft).length > 0) lacking.push("views");
  if (blank(draft.team.name)) lacking.push("team");
  if (blank(draft.customer.name)) lacking.push("customer");
  if (alone && blank(draft.witness.name)) lacking.push("witness");
  else if (alone && draft.witness.name.trim() === draft.team.name.trim()) lacking.push("same-witness");
  return lacking;
}

/**
 * Return the report of a mark.
 *
 * What was there when the car went out is "hand-over": the baseline of the costs. What is found when it comes back
 * is new: it was seen at the base, in the "workshop", and goes into the queue like any other damage.
 */
export function bodyOfMark(mark: DraftMark, walk: WalkDraft["walk"]): ReportBody {
  const { zone, findings, photos, note } = mark;
  return { ...EMPTY_BODY, where: walk === "out" ? "hand-over" : "workshop", zone, findings, photos, note };
}

type Signed = NonNullable<DataOf["handover.signed"]["signed"]>;

/** Return what the entry says. `marks`: the reports of the draft's marks; `signed`: who signed, with their pictures. */
export function walkData(draft: WalkDraft, marks: string[], signed: Signed): DataOf["handover.signed"] {
  const depths = (said: Partial<Record<Corner, number>>) =>
    CORNERS.flatMap((place) => (said[place] === undefined ? [] : [{ place, mm: said[place] }]));
  return {
    walk: draft.walk,
    ...(draft.agreement === null ? {} : { agreement: draft.agreement }),
    ...(draft.odometer_km === null ? {} : { odometer_km: draft.odometer_km }),
    ...(draft.fuel_percent === null ? {} : { fuel_percent: draft.fuel_percent }),
    tread: depths(draft.tread),
    pads: depths(draft.pads),
    fluids: FLUIDS.flatMap((fluid) => (draft.fluids[fluid] ? [{ fluid, level: draft.fluids[fluid] }] : [])),
    kit: draft.kit.flatMap(({ item, aboard }) => (aboard === null ? [] : [{ item, aboard }])),
    photos: VIEWS.flatMap((view) => photoOf(draft, view)),
    marks,
    signed,
    note: draft.note.trim(),
    ...(draft.needs_cleaning == null ? {} : { needs_cleaning: draft.needs_cleaning }),
  };
}

function photoOf(draft: WalkDraft, view: View) {
  const said = draft.photos[view];
  if (!said) return [];
  return [said.photo === null ? { view, why_none: said.why_none } : { view, photo: said.photo }];
}
