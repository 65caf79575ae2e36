/** One mark: the parts, how they are, photos, a note. Kept as it is tapped. */

import type { CarMap, ReportBody } from "../../kit/api";
import { bodyOfMark, type DraftMark } from "../../report/walk_draft";
import { FormTitle } from "../bits/FormTitle";
import { Photos } from "../bits/Photo";
import { PhotoAdder } from "../bits/PhotoAdder";
import { componentLabel, zoneLabel } from "../labels";
import { conditionChips } from "../log/likely";
import { Parts } from "../log/Parts";
import { walk as words } from "../words/walk";
import type { AtStep } from "./atStep";

interface MarkFormProps extends AtStep {
  mark: DraftMark;
  onChange: (mark: DraftMark, what: string) => void;
  onDone: () => void;
}

export function MarkForm({ draft, setup, actions, mark, onChange, onDone }: MarkFormProps) {
  const map = setup.car_map;
  const zone = zoneLabel(map, mark.zone);
  const found = (body: ReportBody) => {
    const { findings, what } = withMarked(mark, body, map);
    onChange({ ...mark, findings }, what ?? zone);
  };
  return (
    <section class="stack" aria-labelledby="mark-title">
      <FormTitle id="mark-title" text={words.markWhat(zone)} />
      <p class="soft">{words.markSafety}</p>
      <Parts map={map} draft={bodyOfMark(mark, draft.walk)} onChange={found} />
      <Photos photos={mark.photos} photoUrl={actions.photoUrl} />
      <PhotoAdder
        keepPhoto={actions.keepPhoto}
        onKept={(photo) => onChange({ ...mark, photos: [...mark.photos, photo] }, words.markPhotos(1))}
      />
      <label>
        <span class="label">{words.note}</span>
        <textarea
          value={mark.note}
          maxLength={300}
          onChange={(event) => onChange({ ...mark, note: event.currentTarget.value }, words.note.toLowerCase())}
        />
      </label>
      <button type="button" class="button main wide" onClick={onDone}>
        {words.keepMarkNext}
      </button>
    </section>
  );
}

/** On a walk a part that is tapped is first of all marked: what a hit usually does to it says nothing here. */
function withMarked(mark: DraftMark, body: ReportBody, map: CarMap) {
  const had = mark.findings.map((one) => one.component);
  const fresh = body.findings.find((one) => !had.includes(one.component));
  const changed = fresh ?? body.findings.find((one) => !mark.findings.includes(one));
  const isMarkable = fresh && conditionChips(map, fresh.component).includes("marked");
  const findings = body.findings.map((one) =>
    one === fresh && isMarkable ? { ...one, condition: "marked" as const } : one,
  );
  return { findings, what: changed ? componentLabel(map, changed.component) : null };
}
