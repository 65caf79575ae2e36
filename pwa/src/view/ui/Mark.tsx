/** The shape of a tone: nothing is told by its colour alone. */

import { Icon } from "./Icon";
import type { IconName } from "./icons";

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

/** A shape on its tint, in front of a row. */
export function Mark({ tone, label }: MarkProps) {
  return (
    <span class={`ui-mark is-${tone}`} {...(label ? { role: "img", "aria-label": label } : {})}>
      <Icon name={SHAPES[tone]} size={20} />
    </span>
  );
}
