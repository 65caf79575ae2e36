/** A state in a word or two, beside a title or in a line of meta. */

import type { ComponentChildren } from "preact";
import "./list.css";
import { Icon } from "./Icon";
import { SHAPES, type Tone } from "./Mark";

/** A tone brings its shape; a plain tag, and one about what can be tapped, has none. */
export function Tag({ tone = "plain", children }: { tone?: Tone; children: ComponentChildren }) {
  const shaped = tone !== "plain" && tone !== "act";
  return (
    <span class={`ui-tag is-${tone}`}>
      {shaped && <Icon name={SHAPES[tone]} size={16} />}
      {children}
    </span>
  );
}
