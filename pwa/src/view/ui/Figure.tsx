/** Numbers that are read before anything else, and tiles that hold them. */

import type { ComponentChildren } from "preact";
import "./figure.css";

interface FigureProps {
  /** As it is shown: *21:40*, *684.64*. */
  value: string;
  /** Once beside the value, small: *min*, *EUR*. */
  unit?: string;
  /** What it counts, under it. */
  label: string;
  tone?: "hold" | "must" | "done" | "plain";
  /** The one of a screen is 44, others 30, beside text 22. */
  size?: "largest" | "large" | "usual";
}

function Value({ value, unit }: Pick<FigureProps, "value" | "unit">) {
  return (
    <span class="ui-figure-value">
      {value}
      {unit && <span class="ui-figure-unit"> {unit}</span>}
    </span>
  );
}

export function Figure({ value, unit, label, tone = "plain", size = "large" }: FigureProps) {
  return (
    <p class={`ui-figure is-${size} is-${tone}`}>
      <Value value={value} unit={unit} />
      <span class="ui-figure-label">{label}</span>
    </p>
  );
}

/** A figure with its label above, in a row of others. */
export function Tile({ value, unit, label }: Omit<FigureProps, "tone" | "size">) {
  return (
    <div class="ui-tile">
      <dt>{label}</dt>
      <dd>
        <Value value={value} unit={unit} />
      </dd>
    </div>
  );
}

/** Tiles side by side, as many as there is room for. */
export function Tiles({ children }: { children: ComponentChildren }) {
  return <dl class="ui-tiles">{children}</dl>;
}
