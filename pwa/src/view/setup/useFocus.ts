/** Takes the focus to a cell once it is on the page. */

import { useEffect, useState } from "preact/hooks";

/** The id of a cell's input. */
export const cellId = (id: number, column: string): string => `cell-${id}-${column}`;

/** Returns a function that asks for the focus on an element by its id. */
export function useFocus(): (id: string) => void {
  const [wanted, setWanted] = useState<string | null>(null);
  useEffect(() => {
    if (wanted !== null && went(wanted)) setWanted(null);
  });
  // At once where it is there already: the next key is for it.
  return (id) => {
    if (!went(id)) setWanted(id);
  };
}

function went(id: string): boolean {
  const element = document.getElementById(id);
  element?.focus({ preventScroll: true });
  element?.scrollIntoView({ block: "nearest", inline: "nearest" });
  return element !== null;
}

/** A fault that was picked on another page and is looked for on the page of its table. */
export const picked: { cell: string | null } = { cell: null };
