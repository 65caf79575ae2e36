/** What is signed, in lines of label and value: the parts of the paper in its order, as the draft has them. Pure. */

import type { EventSetup } from "../../kit/api";
import { CORNERS, FLUIDS, VIEWS } from "../../report/walk_list";
import type { WalkDraft } from "../../report/walk_draft";
import { zoneLabel } from "../labels";
import { walk as words } from "../words/walk";

/** Return a line for each part of the paper, in its order; what was not read or counted is said, too. */
export function signedLines(draft: WalkDraft, setup: EventSetup): [label: string, value: string][] {
  const { pdf, signs } = words;
  const aboard = draft.kit.filter((one) => one.aboard === true).length;
  const missing = draft.kit.filter((one) => one.aboard === false).map((one) => one.item);
  const open = draft.kit.length - aboard - missing.length;
  const taken = VIEWS.filter((view) => draft.photos[view]?.photo).length;
  const read = (some: Partial<Record<string, unknown>>, all: readonly string[]) =>
    all.filter((one) => some[one] !== undefined).length;
  return [
    [pdf.marks[draft.walk], marksOf(draft, setup) || pdf.none],
    [words.odometer, draft.odometer_km === null ? pdf.figureNone : `${draft.odometer_km} km`],
    [words.fuel, draft.fuel_percent === null ? pdf.figureNone : words.percent(draft.fuel_percent)],
    [words.tread, signs.of(read(draft.tread, CORNERS), CORNERS.length)],
    [words.pads, signs.of(read(draft.pads, CORNERS), CORNERS.length)],
    [pdf.fluids, signs.of(read(draft.fluids, FLUIDS), FLUIDS.length)],
    [pdf.kit, signs.kit(aboard, missing, open)],
    ...(draft.note.trim() === "" ? [] : [[pdf.note, draft.note.trim()] as [string, string]]),
    [pdf.photos, signs.of(taken, VIEWS.length)],
  ];
}

/** "Front left 2, roof": places once, in the order in which they were marked, with how many where several. */
function marksOf(draft: WalkDraft, setup: EventSetup): string {
  const counts = new Map<string, number>();
  for (const { zone } of draft.marks) counts.set(zone, (counts.get(zone) ?? 0) + 1);
  const named = [...counts].map(([zone, n]) => `${zoneLabel(setup.car_map, zone)}${n > 1 ? ` ${n}` : ""}`);
  return named.join(", ");
}
