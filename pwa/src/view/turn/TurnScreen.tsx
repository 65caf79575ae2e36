/** Between two turns of a school day: who drives next, six places, one save. */

import { useState } from "preact/hooks";
import { prefill, stageNow } from "../../report/prefill";
import { firstNew, placesOfTurn, type Seen } from "../../report/turn";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { zoneLabel } from "../labels";
import { keepRound } from "../round/keptRound";
import type { CarScreen } from "../screen";
import { Driver } from "../service/Driver";
import { log } from "../words/log";
import { turn as words } from "../words/turn";
import { entriesOf } from "../../report/lists";

export function TurnScreen(props: CarScreen) {
  const { state, setup, car, actions } = props;
  const map = setup.car_map;
  const entries = entriesOf(state.entries);
  // What was the session when the screen opened: a report that is saved meanwhile must not move it on.
  const [session] = useState(() => stageNow(entries, car, setup, state.now) ?? log.session);
  const [seen, setSeen] = useState<Record<string, Seen>>({});
  const [hint, setHint] = useState(false);
  const { busy, problem, run } = usePending();
  const places = placesOfTurn(map);
  const missing = places.filter((place) => !(place in seen)).length;
  const found = firstNew(places, seen);
  const save = async () => {
    await actions.nothingSeen(session, "walked-round");
    actions.go("/log");
  };
  const say = () => {
    const looked = places.filter((place) => seen[place] === "as-before");
    const base = prefill(entries, car, setup, state.now);
    keepRound(setup.event, car, { base, zones: Object.fromEntries(looked.map((place) => [place, []])), happened: [] });
    actions.go(`/round/${encodeURIComponent(found ?? "")}`);
  };
  const press = () => {
    if (found) return say();
    if (missing > 0) return setHint(true);
    void run(save);
  };
  return (
    <div class="incar stack">
      <h1>{words.title}</h1>
      <p class="soft">{words.how(session)}</p>
      <Driver {...props} />
      {places.map((place) => (
        <OneOf<Seen>
          key={place}
          legend={zoneLabel(map, place)}
          value={seen[place] ?? null}
          options={[
            { value: "as-before", label: words.asBefore },
            { value: "new", label: words.isNew },
          ]}
          onPick={(value) => setSeen({ ...seen, [place]: value })}
        />
      ))}
      <div class="save-bar">
        <ProblemLine text={problem ?? (hint && !found && missing > 0 ? words.missing(missing) : null)} />
        <button type="button" class="button main wide" aria-disabled={busy || (!found && missing > 0)} onClick={press}>
          {busy ? words.saving : found ? words.sayNew(zoneLabel(map, found)) : words.save(session)}
        </button>
      </div>
    </div>
  );
}
