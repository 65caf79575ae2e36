/** The strip under the app bar: what the log holds of this car, and the way to the reasons. 56 px, all of it one target. */

import "./bars.css";
import { Icon } from "./Icon";
import type { IconName } from "./icons";

/** What is shown: held, nothing open in the log, or not known on this phone. */
export type HoldState = "hold" | "nothing" | "unknown";

const ICONS: Record<HoldState, IconName> = { hold: "hold", nothing: "nothing", unknown: "unknown" };

interface HoldStripProps {
  /** The name of the place for screen readers. */
  label?: string;
  /** Somebody else speaks the sentence when it changes. */
  quiet?: boolean;
  state: HoldState;
  /** In capitals where it holds, as *HOLD*. */
  word: string;
  /** The rest of the sentence, as *4 to inspect*. */
  text: string;
  /** What opens the reasons; none where there are none. */
  why?: { word: string; label: string; open: boolean; onToggle: () => void };
}

/** The sentence is spoken when it changes; the button beside it covers the whole strip. */
export function HoldStrip({ label, quiet, state, word, text, why }: HoldStripProps) {
  return (
    <section class={`ui-hold is-${state}`} aria-label={label}>
      <Icon name={ICONS[state]} size={20} />
      <p class="ui-hold-text" role={quiet ? undefined : "status"}>
        <strong>{word}</strong> {text}
      </p>
      {why && (
        <button
          type="button"
          class="ui-hold-why"
          aria-label={why.label}
          aria-expanded={why.open}
          onClick={why.onToggle}
        >
          {why.word}
          <Icon name={why.open ? "open" : "forward"} size={16} />
        </button>
      )}
    </section>
  );
}
