/** Runs what a person asked for, once at a time, and says in words when it could not be kept. */

import { useState } from "preact/hooks";
import { Told } from "../../kit/told";
import { common } from "../words/common";
import { giveBack } from "./giveBack";

export interface Pending {
  busy: boolean;
  /** What went wrong, or null. */
  problem: string | null;
  run: (work: () => Promise<unknown>) => Promise<void>;
}

/** A second tap while the first is under way does nothing. */
export function usePending(): Pending {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const run = async (work: () => Promise<unknown>) => {
    if (busy) return;
    const { activeElement } = document;
    setBusy(true);
    setProblem(null);
    try {
      await work();
    } catch (error) {
      // The outermost edge of the screens: whatever failed behind them is said, never swallowed.
      setProblem(sentenceOf(error));
    }
    setBusy(false);
    // By then what came of the work is drawn, and has taken the focus itself where it does.
    setTimeout(giveBack, 100, activeElement);
  };
  return { busy, problem, run };
}

function sentenceOf(error: unknown): string {
  if (error instanceof Told) return error.message;
  return common.notKept(error instanceof Error ? error.message : String(error));
}
