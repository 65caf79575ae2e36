/** The walk under way: each tap is shown at once, kept on the phone, and can be taken back. */

import { useEffect, useRef, useState } from "preact/hooks";
import { UserError } from "../../kit/user_error";
import type { Actions } from "../../flow/model";
import type { WalkDraft } from "../../report/walk_draft";
import { common } from "../words/common";

/** So many taps can be taken back. */
const MOST_UNDO = 40;

export interface Walk {
  /** Undefined while the phone is asked. */
  draft: WalkDraft | null | undefined;
  /**
   * Change it. `what`: in words, for "undo"; without it the change is not worth one, as going to another step.
   * `typing`: one letter of a text, which is taken back as a whole.
   */
  change(next: WalkDraft, what?: string, typing?: boolean): void;
  /** What the next undo takes back, or null. */
  undoes: string | null;
  undo(): void;
  giveUp(): void;
  /** It was signed: nothing is left of it here. */
  end(): void;
  problem: string | null;
}

/** Follows the walk of one car. */
export function useWalk(actions: Actions): Walk {
  const [draft, setDraft] = useState<WalkDraft | null | undefined>(undefined);
  const [before, setBefore] = useState<{ draft: WalkDraft | null; what: string }[]>([]);
  const [problem, setProblem] = useState<string | null>(null);
  // A photo may be kept while the person taps on: what comes later builds on the newest.
  const newest = useRef<WalkDraft | null>(null);
  useEffect(() => {
    actions.walkDraft().then((found) => {
      newest.current = found;
      setDraft(found);
    }, fail);
  }, []);

  function fail(error: unknown) {
    // The outermost edge of the screens: whatever failed behind them is said, never swallowed.
    setProblem(error instanceof UserError ? error.message : common.notKept(String(error)));
  }
  function show(next: WalkDraft | null) {
    newest.current = next;
    setDraft(next);
    setProblem(null);
    (next ? actions.keepWalkDraft(next) : actions.dropWalkDraft()).catch(fail);
  }
  return {
    draft,
    change(next, what, typing = false) {
      const goesOn = typing && before.at(-1)?.what === what;
      if (what && !goesOn) setBefore([...before, { draft: newest.current, what }].slice(-MOST_UNDO));
      show(next);
    },
    undoes: before.at(-1)?.what ?? null,
    undo() {
      const last = before.at(-1);
      if (!last) return;
      setBefore(before.slice(0, -1));
      show(last.draft && newest.current ? { ...last.draft, step: newest.current.step } : last.draft);
    },
    giveUp() {
      setBefore([{ draft: newest.current, what: "" }]);
      show(null);
    },
    end() {
      newest.current = null;
      setBefore([]);
      setDraft(null);
    },
    problem,
  };
}
