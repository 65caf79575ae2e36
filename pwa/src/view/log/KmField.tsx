/** Where in the stage: km by steps, a page of the notes, the phone's position, or not known. */

import type { Actions } from "../../flow/model";
import type { EventSetup, ReportBody } from "../../kit/api";
import { Stepper } from "../bits/Stepper";
import { common } from "../words/common";
import { log } from "../words/log";
import { steppedKm } from "./draft";
import { FromGps } from "./FromGps";
import { NotePage } from "./NotePage";
import { withoutThird } from "./thirds";

interface KmField {
  actions: Actions;
  setup: EventSetup;
  /** The report that is changed; null while it is being written. */
  report: string | null;
  draft: ReportBody;
  /** Length of the chosen stage, null where it is not known. */
  stage_km: number | null;
  onChange: (draft: ReportBody) => void;
}

export function KmField({ actions, setup, report, draft, stage_km, onChange }: KmField) {
  const step = (by: number) =>
    onChange({ ...draft, km: steppedKm(draft.km, by, stage_km), note: withoutThird(draft.note) });
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
      {draft.km !== null && (
        <button
          type="button"
          class="button quiet"
          onClick={() => onChange({ ...draft, km: null, note: withoutThird(draft.note) })}
        >
          {log.kmUnknown}
        </button>
      )}
      <NotePage draft={draft} onChange={onChange} />
      <FromGps {...{ actions, draft, report, onChange }} places={setup.places} />
    </div>
  );
}
