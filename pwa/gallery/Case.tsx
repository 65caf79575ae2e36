/** One state of a component, under its name. */

import type { ComponentChildren } from "preact";

interface CaseProps {
  name: string;
  children: ComponentChildren;
  /** How its content lies. */
  as?: "stack" | "row" | "bleed";
}

export function Case({ name, children, as = "stack" }: CaseProps) {
  return (
    <section class="gallery-case" aria-label={name}>
      <p class="gallery-name">{name}</p>
      <div class={`gallery-${as}`}>{children}</div>
    </section>
  );
}

/** For what a tap would do, where nothing is behind it. */
export const nothing = () => {};
