/** Takes the focus to a cell once it is on the page. */

import { useEffect, useState } from "preact/hooks";

/** The id of a cell's input. */
export const cellId = (id: number, column: string): string => `cell-${id}-${column}`;

/** Returns a function that asks for the focus on an element by its id. */
export function useFocus(): (id: string) => void {
  const [wanted, setWanted] = useState<string | null>(null);
  useEffect(() => {
    const element = wanted === null ? null : document.getElementById(wanted);
    if (!element) return;
    element.focus({ preventScroll: true });
    element.scrollIntoView({ block: "center", inline: "center" });
    setWanted(null);
  });
  return setWanted;
}

/** A fault that was picked on another page and is looked for on the page of its table. */
export const picked: { cell: string | null } = { cell: null };
