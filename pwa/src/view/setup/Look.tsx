/** A button that has the server look for faults, and what came of it. */

import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { setup as words } from "../words/setup";
import type { Editing } from "./useSetup";

export function Look({ editing }: { editing: Editing }) {
  const { busy, problem, run } = usePending();
  const isFresh = editing.checked?.book === editing.book;
  return (
    <>
      <button type="button" class="button" disabled={busy} onClick={() => run(editing.check)}>
        {busy ? words.checking : words.checkIt}
      </button>
      <span role="status" class="soft">
        {isFresh && editing.faults.length === 0 && words.noFaults}
      </span>
      <ProblemLine text={problem} />
    </>
  );
}
