/** A walk round that is under way: kept on the phone with each change, dropped and brought back. */

import { useState } from "preact/hooks";
import { prefill } from "../../report/prefill";
import type { Round } from "../../report/round";
import type { CarScreen } from "../screen";
import { forgetRound, keepRound, keptRound } from "./keptRound";
import { entriesOf } from "../../report/lists";

export interface Rounding {
  round: Round;
  /** False where the phone could not keep the last change. */
  isKept: boolean;
  /** What was dropped last, to be brought back by `change`; null for nothing. */
  dropped: Round | null;
  change(next: Round): void;
  drop(): void;
  /** It is saved: nothing of it is kept any more. */
  forget(): void;
}

export function useRound(props: CarScreen): Rounding {
  const { setup, car } = props;
  const [round, setRound] = useState<Round>(() => keptRound(setup.event, car) ?? begun(props));
  const [isKept, setKept] = useState(true);
  const [dropped, setDropped] = useState<Round | null>(null);
  const forget = () => forgetRound(setup.event, car);
  return {
    round,
    isKept,
    dropped,
    forget,
    change(next) {
      setKept(keepRound(setup.event, car, next));
      setDropped(null);
      setRound(next);
    },
    drop() {
      forget();
      setDropped(round);
      setRound(begun(props));
    },
  };
}

function begun({ state, setup, car }: CarScreen): Round {
  const entries = entriesOf(state.entries);
  return { base: prefill(entries, car, setup, state.now), zones: {}, happened: [] };
}
