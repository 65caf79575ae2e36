/** The shape of a tone: nothing is told by its colour alone. */

import "./icon.css";
import { ICONS, type IconName } from "./icons";

/** What something asks for: hold and inspect (red), must (amber), done (green), act (to be tapped), plain (nothing). */
export type Tone = "hold" | "inspect" | "must" | "done" | "act" | "plain";

export const SHAPES: Record<Tone, IconName> = {
  hold: "hold",
  inspect: "inspect",
  must: "caution",
  done: "check",
  act: "forward",
  plain: "dot",
};

interface MarkProps {
  tone: Tone;
  /** What it means, for a screen reader; none where the row's words say it. */
  label?: string;
}

/** A shape on its tint, in front of a row; one element and its path, since a list may have hundreds. */
export function Mark({ tone, label }: MarkProps) {
  const named = label ? ({ role: "img", "aria-label": label } as const) : ({ "aria-hidden": true } as const);
  return (
    // biome-ignore lint/a11y/noSvgWithoutTitle: it is hidden, or has its name as an image.
    <svg class={`ui-icon ui-mark is-${tone}`} viewBox="0 0 24 24" focusable="false" {...named}>
      <path d={ICONS[SHAPES[tone]]} />
    </svg>
  );
}
