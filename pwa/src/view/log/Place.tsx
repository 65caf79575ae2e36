/** Which stage or other place the hit was at; the next stage is there already. */

import type { EventSetup, ReportBody, Where } from "../../kit/api";
import { common } from "../words/common";
import { log } from "../words/log";

interface Place {
  setup: EventSetup;
  draft: ReportBody;
  onChange: (draft: ReportBody) => void;
  /** Without words above: the lists say what they are of. */
  quiet?: boolean;
}

const PLACES = Object.keys(common.where) as Where[];

/** Two native lists: stage and kind of place. A km of another stage means nothing, so it goes. */
export function Place({ setup, draft, onChange, quiet }: Place) {
  const school = setup.kind === "school";
  return (
    <div class="row even">
      <label>
        <span class={quiet ? "unseen" : "label"}>{log.where}</span>
        <select
          value={draft.where}
          onChange={(event) => onChange({ ...draft, where: event.currentTarget.value as Where })}
        >
          {PLACES.map((where) => (
            <option key={where} value={where}>
              {common.where[where]}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span class={quiet ? "unseen" : "label"}>{school ? log.session : log.stage}</span>
        <select
          value={draft.stage ?? ""}
          onChange={(event) =>
            onChange({ ...draft, stage: event.currentTarget.value || null, km: null, note_page: null })
          }
        >
          <option value="">{school ? log.noSession : log.noStage}</option>
          {setup.stages.map(({ stage, km }) => (
            <option key={stage} value={stage}>
              {log.stageKm(stage, km)}
            </option>
          ))}
        </select>
      </label>
    </div>
  );
}
