/** A small drawing beside words, or in a button that has a label; to a screen reader it is nothing. */

import "./icon.css";
import { ICONS, type IconName } from "./icons";

/** `size`: in CSS pixels at letters of the usual size; it grows with them. */
export function Icon({ name, size = 24 }: { name: IconName; size?: 16 | 20 | 24 | 32 }) {
  return (
    <svg class={`ui-icon s${size}`} viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d={ICONS[name]} />
    </svg>
  );
}
