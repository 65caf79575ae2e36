/** Photos that another app shared go into the report being written; what was not taken is said before. */

import { useEffect, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import { MOST_SHARED, type Shared } from "../../kit/shared";
import { entriesOf } from "../../report/lists";
import { prefill, SAME_STOP_MS } from "../../report/prefill";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { shared as words } from "../words/shared";
import { draftBefore } from "./draftBefore";
import { keepDraft, keptDraft } from "./keptDraft";
import type { LogScreen } from "./LogScreen";

export function SharedScreen({ state, setup, car, actions }: LogScreen) {
  const [shared, setShared] = useState<Shared | null>(null);
  const { problem, run } = usePending();
  const take = async () => {
    const came = await actions.takeShared();
    // What was written at another stop would be of another stage.
    const before = keptDraft(car) ?? draftBefore(car, SAME_STOP_MS);
    const entries = entriesOf(state.entries);
    const draft = before ?? prefill(entries, car, setup, state.now);
    const photos = [...new Set([...draft.photos, ...came.photos])];
    if (before || photos.length) keepDraft(car, { ...draft, photos });
    if (came.photos.length && faultsOf(came).length === 0) actions.go("/log");
    else setShared(came);
  };
  // Once: what it takes waits for nobody else.
  useEffect(() => void run(take), []);
  return (
    <div class="incar stack">
      <h1>{words.title}</h1>
      <ProblemLine text={problem} />
      <div class="stack" role="status">
        {shared ? <Told shared={shared} /> : !problem && <p>{words.taking}</p>}
      </div>
      {(shared || problem) && <ToLog actions={actions} />}
    </div>
  );
}

function Told({ shared }: { shared: Shared }) {
  const faults = faultsOf(shared);
  const { length } = shared.photos;
  return (
    <>
      {faults.map((text) => (
        <p key={text} class="warn">
          {text}
        </p>
      ))}
      {length > 0 && <p>{words.kept(length)}</p>}
      {length + faults.length === 0 && <p>{words.none}</p>}
    </>
  );
}

function ToLog({ actions }: { actions: Actions }) {
  return (
    <button type="button" class="button main" onClick={() => actions.go("/log")}>
      {words.toLog}
    </button>
  );
}

function faultsOf({ not_photos, too_many, no_room, unreadable }: Shared): string[] {
  return [
    not_photos > 0 ? words.notPhotos(not_photos) : "",
    too_many > 0 ? words.tooMany(too_many, MOST_SHARED) : "",
    no_room > 0 ? words.noRoom(no_room) : "",
    unreadable > 0 ? words.unreadable(unreadable) : "",
  ].filter(Boolean);
}
