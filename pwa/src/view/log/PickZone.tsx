/** First step of the log: the car to tap, or only something noticed, or nothing seen. */

import type { EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import { lazy } from "../bits/lazy";
import type { PhotosProps } from "../bits/Photo";
import { PhotoAdder } from "../bits/PhotoAdder";
import { CarDrawing } from "../car/CarDrawing";
import { log } from "../words/log";
import { atZone } from "./draft";
import type { CarScreen } from "../screen";
import { heldZones, openByZone } from "./openByZone";

// Few take one before they tap a place.
const Photos = lazy<PhotosProps>(
  async () => (await import("../bits/Photo")).Photos,
  () => null,
);

// It asks only once a stage is over, and stands at the end, where nothing moves when it comes.
const NothingSeen = lazy<CarScreen>(
  async () => (await import("./NothingSeen")).NothingSeen,
  () => null,
);

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
  return (
    <div class="stack">
      <CarDrawing
        map={setup.car_map}
        chosen={draft.zone}
        counts={openByZone(state, car)}
        held={heldZones(state)}
        onPick={(zone) => onPick(atZone(draft, zone))}
      />
      {setup.kind === "school" && (
        <a class="button main" href="#/turn">
          {log.turn}
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
      {draft.photos.length > 0 && (
        <Photos
          photos={draft.photos}
          photoUrl={actions.photoUrl}
          markPhoto={actions.markPhoto}
          onPhotos={(photos) => onPhoto({ ...draft, photos })}
        />
      )}
      <a class="button" href="#/round">
        {log.round}
      </a>
      {!state.reading && <NothingSeen {...{ state, setup, car, actions }} />}
    </div>
  );
}
