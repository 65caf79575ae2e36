/** The drawing beside an old screen's words, out of the one set of icons; always decoration, the words carry the meaning. */

import { ICONS, type IconName } from "../ui/icons";

/** What the screens' own words are called in the set. */
const CALLED: Record<string, IconName> = {
  me: "person",
  sent: "check",
  attention: "caution",
  "nothing-open": "nothing",
  microphone: "voice",
  two: "documents",
};

const pathOf = (name: string) => ICONS[CALLED[name] ?? (name as IconName)] ?? "";

/** A drawing by name; nothing for a name that has none. */
export function Icon({ name }: { name: string }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
      <path d={pathOf(name)} />
    </svg>
  );
}
