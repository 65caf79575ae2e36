/** Second step of the log: parts, how bad, what is noticed, whether it drives; Save stays in reach all the time. */

import { useState } from "preact/hooks";
import type { EventSetup, ReportBody } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import { reportsOf, type EffectiveReport } from "../../report/effective";
import { OneOf } from "../bits/Chips";
import { PhotoAdder } from "../bits/PhotoAdder";
import { Photos } from "../bits/Photo";
import { SaveBar } from "../bits/SaveBar";
import { useNextFrame } from "../bits/useNextFrame";
import { takeFocus } from "../bits/takeFocus";
import { useOpen } from "../bits/useOpen";
import { CarDrawing } from "../car/CarDrawing";
import { useRoom } from "../car/useRoom";
import { zoneLabel } from "../labels";
import { common } from "../words/common";
import { log } from "../words/log";
import { atZone, canSave } from "./draft";
import { lastFound } from "./likely";
import { More } from "./More";
import { Parts } from "./Parts";
import { Place } from "./Place";
import { Rough } from "./Rough";
import { Symptoms } from "./Symptoms";
import { roughly, THIRDS, thirdOf } from "./thirds";

interface Form {
  state: AppState;
  setup: EventSetup;
  actions: Actions;
  draft: ReportBody;
  onChange: (draft: ReportBody) => void;
  /** `said`: the draft, with what the tap adds to it. */
  onSave: (said: ReportBody) => Promise<void>;
  saveLabel: string;
  /** Told once when the person says that the car has stopped. */
  onStopped?: () => void;
  /** Back to the drawing; without it the drawing opens in place. */
  onOtherPlace?: () => void;
  /** All fields open, since somebody came to change one of them. */
  amending?: boolean;
}

const DRIVES = ["well", "poorly", "no"] as const;

export function Form(props: Form) {
  const { setup, draft, onChange, onStopped } = props;
  const rest = useNextFrame() || props.amending;
  const map = setup.car_map;
  // Once: a report that comes in from elsewhere must not move the chips under a thumb.
  const [last] = useState(() => lastFound(reportsOf(props.state.entries, props.state.car)));
  const drive = (drives: (typeof DRIVES)[number]) => {
    onChange({ ...draft, drives });
    if (drives === "no" && draft.drives !== "no") onStopped?.();
  };
  return (
    <div class="stack log-form">
      <ZoneLine {...props} />
      {draft.zone !== null && <Place setup={setup} draft={draft} onChange={onChange} quiet />}
      {draft.zone !== null && <Parts {...{ map, draft, last, onChange }} />}
      {rest && props.amending && <Rough {...{ setup, draft, onChange }} />}
      {(rest || draft.zone === null) && (
        <Symptoms map={map} draft={draft} open={draft.zone === null} onChange={onChange} />
      )}
      {draft.zone === null && <Place setup={setup} draft={draft} onChange={onChange} />}
      {rest && <Rest {...props} drive={drive} />}
      <SaveBar
        lacking={props.state.reading ? common.starting : canSave(props.draft) ? null : log.needs}
        label={props.saveLabel}
        about={savedFor(props)}
        saving={log.saving}
        onSave={() => props.onSave(draft)}
        also={props.amending ? [] : thirdsOf(props)}
      />
    </div>
  );
}

/** The stage on *Save* itself: guessed, and wrong now and then. */
function savedFor({ draft, amending }: Form) {
  if (amending || draft.stage === null || draft.where !== "stage") return null;
  return { short: draft.stage, whole: log.saveFor(draft.stage) };
}

/** Save and roughly where, in one tap; nothing where the stage's length is not known, or its km was said. */
function thirdsOf({ setup, draft, onSave }: Form) {
  const stage = setup.stages.find((one) => one.stage === draft.stage);
  if (draft.where !== "stage" || !stage || (draft.km !== null && thirdOf(draft) === null)) return [];
  return THIRDS.map((third) => ({
    text: log.third[third] ?? third,
    name: log.saveThird(log.third[third] ?? third, stage.stage),
    onSave: () => onSave(roughly(draft, third, stage.km)),
  }));
}

/** What is seldom needed for the commonest hit, and lies below the parts. */
function Rest(props: Form & { drive: (drives: (typeof DRIVES)[number]) => void }) {
  const { setup, draft, onChange, drive, amending = false } = props;
  return (
    <>
      <OneOf
        legend={log.drives}
        value={draft.drives}
        options={DRIVES.map((value) => ({ value, label: common.drives[value] ?? value }))}
        onPick={drive}
      />
      <More
        state={props.state}
        actions={props.actions}
        setup={setup}
        draft={draft}
        open={amending}
        hits={hitsBefore(props)}
        onChange={onChange}
      />
      <Photos
        photos={draft.photos}
        photoUrl={props.actions.photoUrl}
        markPhoto={props.actions.markPhoto}
        onPhotos={(photos) => onChange({ ...draft, photos })}
      />
      {amending && (
        <PhotoAdder
          keepPhoto={props.actions.keepPhoto}
          onKept={(sha256) => onChange({ ...draft, photos: [...draft.photos, sha256] })}
        />
      )}
    </>
  );
}

/** So many can be looked through; what is older is hardly behind what broke just now. */
const MOST_HITS = 50;

/** The newest hits of this car that may be behind what is written now: not itself, nor what was there at a hand-over. */
function hitsBefore({ state, draft }: Form): EffectiveReport[] {
  const reports = reportsOf(state.entries, state.car);
  const found: EffectiveReport[] = [];
  for (const one of reports) {
    const { report, withdrawn, body } = one;
    const may = !withdrawn && body.where !== "hand-over" && report !== state.route.subject && body.caused_by === null;
    if (report === draft.caused_by || (may && found.length < MOST_HITS)) found.push(one);
  }
  return found;
}

function ZoneLine({ setup, draft, onChange, onOtherPlace }: Form) {
  const drawing = useOpen();
  const { low } = useRoom();
  const pick = (zone: string) => {
    drawing.close();
    onChange(atZone(draft, zone));
  };
  return (
    <>
      <div class="zone-line">
        <h2 ref={takeFocus} tabIndex={-1}>
          {zoneLabel(setup.car_map, draft.zone)}
        </h2>
        {!low && (
          <button type="button" class="button" onClick={onOtherPlace ?? drawing.toggle}>
            {log.change}
          </button>
        )}
      </div>
      {(drawing.isOpen || low) && <CarDrawing map={setup.car_map} chosen={draft.zone} counts={{}} onPick={pick} />}
    </>
  );
}
