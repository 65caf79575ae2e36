/** Runs what a person asked for, once at a time, and says in words what stands in its way or why it could not be kept. */

import { useState } from "preact/hooks";
import { UserError } from "../../kit/user_error";
import { common } from "../words/common";
import { giveBack } from "./giveBack";

export interface Pending {
  busy: boolean;
  /** What went wrong, or what is missing; null for nothing. */
  problem: string | null;
  /** Runs nothing where something is missing: says that instead. `missing`: what stands in the way of this very tap. */
  run: (work: () => Promise<unknown>, missing?: string | null) => Promise<void>;
}

/**
 * A second tap while the first is under way does nothing. `lacking`: what still stands in the way, in words; a tap has
 * it said, and it goes once nothing is lacking.
 */
export function usePending(lacking: string | null = null): Pending {
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const [asked, setAsked] = useState(false);
  const run = async (work: () => Promise<unknown>, missing: string | null = null) => {
    if (busy) return;
    setProblem(missing);
    setAsked(lacking !== null);
    if (missing !== null || lacking !== null) return;
    const { activeElement } = document;
    setBusy(true);
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
  return { busy, problem: problem ?? (asked ? lacking : null), run };
}

function sentenceOf(error: unknown): string {
  if (error instanceof UserError) return error.message;
  return common.notKept(error instanceof Error ? error.message : String(error));
}
