/** The fields of what may be said later or never: km, direction, cause, the hit behind it, note. */

import type { Cause, EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import type { EffectiveReport } from "../../report/effective";
import { OneOf } from "../bits/Chips";
import { Driver } from "../service/Driver";
import { common } from "../words/common";
import { log } from "../words/log";
import { DirectionDial } from "./DirectionDial";
import { KmField } from "./KmField";
import { whatSaid, whereSaid } from "./said";

export interface MoreFields {
  state: AppState;
  actions: Actions;
  setup: EventSetup;
  draft: ReportBody;
  /** Whether the report is new: who drives is no part of it, and not asked where an old one is changed. */
  isNew: boolean;
  /** Earlier hits, one of which may be behind this. */
  hits: EffectiveReport[];
  onChange: (draft: ReportBody) => void;
}

const CAUSES = Object.keys(common.cause) as Cause[];

export function MoreFields({ state, actions, setup, draft, isNew, hits, onChange }: MoreFields) {
  const stage = setup.stages.find((one) => one.stage === draft.stage);
  return (
    <div class="stack">
      {draft.where === "stage" && (
        <KmField
          {...{ actions, setup, draft }}
          report={isNew ? null : state.route.subject}
          stage_km={stage?.km ?? null}
          onChange={onChange}
        />
      )}
      <OneOf
        legend={log.cause}
        value={draft.cause}
        options={CAUSES.map((value) => ({ value, label: common.cause[value] ?? value }))}
        onPick={(cause) => onChange({ ...draft, cause })}
      />
      <DirectionDial value={draft.direction} onPick={(direction) => onChange({ ...draft, direction })} />
      {hits.length > 0 && (
        <label>
          <span class="label">{log.causedBy}</span>
          <select
            value={draft.caused_by ?? ""}
            onChange={(event) => onChange({ ...draft, caused_by: event.currentTarget.value || null })}
          >
            <option value="">{log.causedByNone}</option>
            {hits.map(({ report, body }) => (
              <option key={report} value={report}>
                {whatSaid(body, setup.car_map)}, {whereSaid(body)}
              </option>
            ))}
          </select>
        </label>
      )}
      <label>
        <span class="label">{log.note}</span>
        <textarea
          value={draft.note}
          maxLength={2000}
          onInput={(event) => onChange({ ...draft, note: event.currentTarget.value })}
        />
      </label>
      {isNew && state.car !== null && <Driver {...{ state, actions, setup, car: state.car }} />}
    </div>
  );
}
