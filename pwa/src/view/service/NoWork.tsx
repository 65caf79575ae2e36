/** Why the work buttons are shut: the car stands where nobody may work on it. */

import { clockIn, localIso } from "../../kit/time";
import { noWork } from "../../report/controls";
import { entriesOf } from "../../report/lists";
import type { CarScreen } from "../screen";
import { arrival as words } from "../words/arrival";

/** What a work button needs to know: shut or not, and the time that late entries are said at (RFC 3339, or null). */
export interface Shut {
  shut: boolean;
  said_at: string | null;
}

/** Return whether work is shut for the car of this screen. */
export function shutOf({ state, setup, car }: CarScreen): Shut {
  const here = noWork(entriesOf(state.entries), car, setup);
  return here ? { shut: true, said_at: localIso(here.since_ms) } : { shut: false, said_at: null };
}

/** The reason, and where to go if it is out; `late`: beside a form for what was done before. */
export function NoWork({ state, setup, car, late = false }: CarScreen & { late?: boolean }) {
  const here = noWork(entriesOf(state.entries), car, setup);
  if (!here) return null;
  const since = clockIn(setup.timezone, here.since_ms);
  if (late) return <p class="strong">{words.before(since)}</p>;
  return (
    <>
      <p class="warn">{words.shut(words.control[here.control], since)}</p>
      <a class="button quiet" href="#/service">
        {words.toOut}
      </a>
    </>
  );
}
