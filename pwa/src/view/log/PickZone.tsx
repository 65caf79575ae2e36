/** First step of the log: the car to tap, or only something noticed, or nothing seen. */

import { useMemo } from "preact/hooks";
import type { EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import { stageNow } from "../../report/prefill";
import { Photos } from "../bits/Photo";
import { PhotoAdder } from "../bits/PhotoAdder";
import { CarDrawing } from "../car/CarDrawing";
import { log } from "../words/log";
import { round } from "../words/round";
import { turn } from "../words/turn";
import { atZone } from "./draft";
import { openByZone } from "./openByZone";
import { NothingSeen } from "./NothingSeen";

interface PickZone {
  state: AppState;
  setup: EventSetup;
  car: string;
  actions: Actions;
  draft: ReportBody;
  onPick: (draft: ReportBody) => void;
  /** A photo that was taken before anything was said. */
  onPhoto: (draft: ReportBody) => void;
}

export function PickZone({ state, setup, car, actions, draft, onPick, onPhoto }: PickZone) {
  // By the minute: what stands in the log is not gone through again at each drawing.
  const minute = Math.floor(state.now / 60_000);
  const stage = useMemo(
    () =>
      stageNow(
        state.entries.map((held) => held.entry),
        car,
        setup,
        minute * 60_000,
      ),
    [state.entries, car, setup, minute],
  );
  return (
    <div class="stack">
      <CarDrawing
        map={setup.car_map}
        chosen={draft.zone}
        counts={openByZone(state, car)}
        onPick={(zone) => onPick(atZone(draft, zone))}
      />
      {setup.kind === "school" && (
        <a class="button main" href="#/turn">
          {turn.link}
        </a>
      )}
      <button type="button" class="button" onClick={() => onPick({ ...draft, zone: null, findings: [] })}>
        {log.noZone}
      </button>
      <PhotoAdder
        keepPhoto={actions.keepPhoto}
        label={log.photoFirst}
        onKept={(sha256) => onPhoto({ ...draft, photos: [...draft.photos, sha256] })}
      />
      <Photos
        photos={draft.photos}
        photoUrl={actions.photoUrl}
        markPhoto={actions.markPhoto}
        onPhotos={(photos) => onPhoto({ ...draft, photos })}
      />
      <a class="button" href="#/round">
        {round.link}
      </a>
      {stage !== null && draft.where !== "service" && <NothingSeen stage={stage} actions={actions} />}
    </div>
  );
}
