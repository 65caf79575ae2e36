/** Stages on which this phone said that nothing was seen, each with undo. */

import type { Entry, EntryOf } from "../../kit/api";
import { countedOf } from "../../report/counted";
import { entriesOf, ofKind } from "../../report/lists";
import { mayVoid } from "../../report/voided";
import { SendingMark } from "../bits/SendingMark";
import { usePending } from "../bits/usePending";
import { timeOf } from "../labels";
import type { CarScreen } from "../screen";
import { common } from "../words/common";
import { reports as words } from "../words/reports";

export function NothingSeenList({ state, setup, car, actions }: CarScreen) {
  const { busy, run } = usePending();
  const valid = new Set<Entry>(ofKind(countedOf(entriesOf(state.entries), car, setup), "stage.nothing_seen"));
  const own = state.entries.filter(({ entry, mine }) => mine && valid.has(entry));
  if (!own.length) return null;
  return (
    <section class="stack nothing-list" aria-labelledby="nothing-list">
      <h2 id="nothing-list">{words.nothingSeen}</h2>
      <ul class="stack">
        {own.map(({ entry, sending }) => {
          const { stage, how } = (entry as EntryOf<"stage.nothing_seen">).data;
          return (
            <li key={entry.id} class="sheet row">
              <span>
                {stage}, {how === "from-seat" ? words.seat : words.round}, {timeOf(setup, entry.at)}
              </span>
              <SendingMark sending={sending} />
              {state.identity && mayVoid(entry, state.identity.person, setup) && (
                <button
                  type="button"
                  class="button"
                  disabled={busy}
                  aria-label={`${common.undo}: ${words.nothingSeen} ${stage}`}
                  onClick={() => run(() => actions.voidEntry(entry.id, common.undoReason))}
                >
                  {common.undo}
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
