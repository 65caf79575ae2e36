/** How far into the stage: steps, or early / middle / late, or not known. */

import type { ReportBody } from "../../kit/api";
import { OneOf } from "../bits/Chips";
import { Stepper } from "../bits/Stepper";
import { common } from "../words/common";
import { log } from "../words/log";
import { steppedKm } from "./draft";

interface KmField {
  draft: ReportBody;
  /** Length of the chosen stage, null where it is not known. */
  stage_km: number | null;
  onChange: (draft: ReportBody) => void;
}

type Third = "early" | "middle" | "late";
const MIDDLE_OF: Record<Third, number> = { early: 1 / 6, middle: 1 / 2, late: 5 / 6 };
const THIRDS = Object.keys(MIDDLE_OF) as Third[];

/** A rough place is kept as the middle of that third, and the note says that it is an estimate. */
const roughly = (draft: ReportBody, third: Third, stage_km: number): ReportBody => ({
  ...draft,
  km: Math.round(MIDDLE_OF[third] * stage_km * 10) / 10,
  note: [withoutThird(draft.note), log.thirdNote(third)].filter(Boolean).join(" · "),
});

const withoutThird = (note: string) =>
  note
    .split(" · ")
    .filter((part) => !THIRDS.some((third) => part === log.thirdNote(third)))
    .join(" · ");

export function KmField({ draft, stage_km, onChange }: KmField) {
  const step = (by: number) =>
    onChange({ ...draft, km: steppedKm(draft.km, by, stage_km), note: withoutThird(draft.note) });
  const third = THIRDS.find((one) => draft.note.includes(log.thirdNote(one))) ?? null;
  return (
    <div class="stack">
      <div>
        <span class="label">{log.km}</span>
        <Stepper
          label={log.km}
          shown={draft.km === null ? "–" : common.km(draft.km)}
          steps={[-1, -0.1, 0.1, 1].map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }))}
          onStep={step}
        />
      </div>
      {stage_km !== null && (
        <OneOf
          legend={log.thirds}
          value={third}
          options={THIRDS.map((value) => ({ value, label: log.third[value] ?? value }))}
          onPick={(value) => onChange(roughly(draft, value, stage_km))}
        />
      )}
      {draft.km !== null && (
        <button
          type="button"
          class="button quiet"
          onClick={() => onChange({ ...draft, km: null, note: withoutThird(draft.note) })}
        >
          {log.kmUnknown}
        </button>
      )}
    </div>
  );
}
