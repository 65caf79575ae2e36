/** First step of the log: the car to tap, or only something noticed, or nothing seen. */

import type { EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import { stageNow } from "../../report/prefill";
import { reportsOf } from "../../report/standing";
import { CarDrawing } from "../car/CarDrawing";
import { log } from "../words/log";
import { atZone } from "./draft";
import { NothingSeen } from "./NothingSeen";

interface PickZone {
  state: AppState;
  setup: EventSetup;
  car: string;
  actions: Actions;
  draft: ReportBody;
  onPick: (draft: ReportBody) => void;
}

/** How many reports that stand name each zone, on this phone. */
function counts(state: AppState, car: string): Record<string, number> {
  const zones = reportsOf(state.entries, car)
    .filter((report) => !report.withdrawn && report.body.where !== "hand-over")
    .map((report) => report.body.zone);
  const counted: Record<string, number> = {};
  for (const zone of zones) if (zone !== null) counted[zone] = (counted[zone] ?? 0) + 1;
  return counted;
}

export function PickZone({ state, setup, car, actions, draft, onPick }: PickZone) {
  const entries = state.entries.map((held) => held.entry);
  const stage = stageNow(entries, car, setup, state.now);
  return (
    <div class="stack">
      <CarDrawing
        map={setup.car_map}
        chosen={draft.zone}
        counts={counts(state, car)}
        onPick={(zone) => onPick(atZone(draft, zone))}
      />
      <button type="button" class="button" onClick={() => onPick({ ...draft, zone: null, findings: [] })}>
        {log.noZone}
      </button>
      {stage !== null && draft.where !== "service" && <NothingSeen stage={stage} actions={actions} />}
    </div>
  );
}
