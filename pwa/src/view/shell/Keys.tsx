/** What the keyboard does where there is one: rows by arrows, `/` to search, `?` for the list of keys. */

import { useEffect } from "preact/hooks";
import { useOpen } from "../bits/useOpen";
import { Sheet } from "../ui/Sheet";
import { keys } from "../words/keys";
import "./keys.css";

const ROWS = "main a.ui-row, main button.ui-row";
/** In these a key is a letter, or moves what is chosen. */
const WRITES = "input, textarea, select, [role=spinbutton], [contenteditable]";

export function Keys() {
  const help = useOpen();
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || document.querySelector("dialog[open]")) return;
      if (event.target instanceof Element && event.target.matches(WRITES)) return;
      if (acts[event.key]?.()) event.preventDefault();
    };
    const acts: Record<string, () => boolean> = {
      ArrowDown: () => focusRow(1),
      ArrowUp: () => focusRow(-1),
      "/": focusSearch,
      "?": () => {
        help.open();
        return true;
      },
    };
    addEventListener("keydown", press);
    return () => removeEventListener("keydown", press);
  }, []);
  return (
    <Sheet open={help.isOpen} title={keys.title} closeLabel={keys.close} onClose={help.close}>
      <dl class="keys">
        {keys.list.map(([key, what]) => (
          <div key={key}>
            <dt>
              <kbd>{key}</kbd>
            </dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
    </Sheet>
  );
}

/** Focus the row after, or before, the one that has the focus or is shown beside the list; say whether there is one. */
function focusRow(by: 1 | -1): boolean {
  const rows = [...document.querySelectorAll<HTMLElement>(ROWS)].filter((row) => row.offsetParent !== null);
  const focused = rows.indexOf(document.activeElement as HTMLElement);
  const at = focused >= 0 ? focused : rows.findIndex((row) => row.getAttribute("aria-current") === "true");
  const next = rows[at < 0 ? (by > 0 ? 0 : -1) : at + by];
  next?.focus();
  return next !== undefined;
}

function focusSearch(): boolean {
  const field = document.querySelector<HTMLElement>("main input[type=search]");
  if (!field || field.offsetParent === null) return false;
  field.focus();
  return true;
}
