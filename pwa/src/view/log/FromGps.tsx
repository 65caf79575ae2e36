/** The place from the phone's own position: asked for by a tap, kept on the phone, shared only by another tap. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import type { Position, ReportBody, RoadPlace } from "../../kit/api";
import { onStage } from "../../report/whereabouts";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { common } from "../words/common";
import { place as words } from "../words/place";
import { positionSaid } from "./positionSaid";
import { withoutThird } from "./thirds";

interface FromGps {
  actions: Actions;
  draft: ReportBody;
  places: RoadPlace[] | undefined;
  /** The report that is changed; null while it is being written. */
  report: string | null;
  onChange: (draft: ReportBody) => void;
}

export function FromGps({ actions, draft, places, report, onChange }: FromGps) {
  const [position, setPosition] = useState<Position | null>(draft.position);
  const [refused, setRefused] = useState<string | null>(null);
  const { busy, problem, run } = usePending();
  // The answer may take long enough for other fields to be filled in meanwhile.
  const latest = useRef(draft);
  latest.current = draft;
  useEffect(() => {
    void actions.positionOf(report).then((kept) => setPosition((now) => now ?? kept));
  }, [actions, report]);
  const ask = () =>
    run(async () => {
      const answer = await actions.locate(report);
      setRefused("refused" in answer ? (words.refused[answer.refused] ?? null) : null);
      if ("refused" in answer) return;
      setPosition(answer);
      onChange(placedAt(latest.current, answer, places));
    });
  return (
    <div class="stack">
      <button type="button" class="button" disabled={busy} onClick={ask}>
        {busy ? words.asking : words.ask}
      </button>
      <ProblemLine text={problem ?? refused} />
      {position && (
        <>
          <Found position={position} stage={draft.stage} places={places} />
          <OneOf
            legend={words.who}
            value={draft.position ? "team" : "phone"}
            options={[
              { value: "phone", label: words.unshare },
              { value: "team", label: words.share },
            ]}
            onPick={(who) => onChange({ ...draft, position: who === "team" ? position : null })}
          />
        </>
      )}
    </div>
  );
}

/** The draft with the km that follows from the position, where the stage's places tell one. */
function placedAt(draft: ReportBody, position: Position, places: RoadPlace[] | undefined): ReportBody {
  const found = onStage(position, draft.stage, places);
  const here = draft.position ? { ...draft, position } : draft;
  return found ? { ...here, km: found.km, note: withoutThird(here.note) } : here;
}

function Found({
  position,
  stage,
  places,
}: {
  position: Position;
  stage: string | null;
  places: RoadPlace[] | undefined;
}) {
  const found = onStage(position, stage, places);
  return (
    <p role="status">
      {found ? words.km(common.km(found.km), words.metres(found.about_m)) : words.noKm}{" "}
      <span class="soft">{positionSaid(position)}</span>
    </p>
  );
}
