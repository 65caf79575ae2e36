/** The button at the end of a page to be saved, and above it what is still missing or what went wrong. */

import { useId } from "preact/hooks";
import { ProblemLine } from "./Problem";
import { usePending } from "./usePending";

interface SaveBarProps {
  /** What is still missing, in words, or null. */
  lacking: string | null;
  label: string;
  /** Under the label, what it is saved for: seen short, spoken whole. */
  about?: { short: string; whole: string } | null;
  /** The button's text while it saves. */
  saving: string;
  onSave: () => Promise<unknown>;
  /** Beside it, as high: the same with one thing more said. `name`: for a screen reader. */
  also?: { text: string; name: string; onSave: () => Promise<unknown> }[];
}

export function SaveBar({ lacking, label, about, saving, onSave, also = [] }: SaveBarProps) {
  const { busy, problem, run } = usePending(lacking);
  const id = useId();
  const stopped = lacking !== null || busy;
  return (
    <div class="save-bar">
      <ProblemLine text={problem} />
      <div class="save-row">
        <button
          type="button"
          class="button main"
          aria-disabled={stopped}
          aria-describedby={about ? id : undefined}
          onClick={() => run(onSave)}
        >
          {busy ? saving : label}
          {about && !busy && <span aria-hidden="true">{about.short}</span>}
        </button>
        {about && (
          <span id={id} class="unseen">
            {about.whole}
          </span>
        )}
        {also.map((one) => (
          <button
            key={one.name}
            type="button"
            class="button"
            aria-disabled={stopped}
            aria-label={one.name}
            onClick={() => run(one.onSave)}
          >
            {one.text}
          </button>
        ))}
      </div>
    </div>
  );
}
