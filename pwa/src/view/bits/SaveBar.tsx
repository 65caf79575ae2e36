/** The button at the end of a page to be saved, and above it what is still missing or what went wrong. */

import { ProblemLine } from "./Problem";
import { usePending } from "./usePending";

interface SaveBarProps {
  /** What is still missing, in words, or null. */
  lacking: string | null;
  label: string;
  /** The button's text while it saves. */
  saving: string;
  onSave: () => Promise<unknown>;
}

export function SaveBar({ lacking, label, saving, onSave }: SaveBarProps) {
  const { busy, problem, run } = usePending(lacking);
  return (
    <div class="save-bar">
      <ProblemLine text={problem} />
      <button
        type="button"
        class="button main wide"
        aria-disabled={lacking !== null || busy}
        onClick={() => run(onSave)}
      >
        {busy ? saving : label}
      </button>
    </div>
  );
}
