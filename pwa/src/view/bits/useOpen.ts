/** Whether a part of a screen is open: a form, a list, a picture made large. */

import { useState } from "preact/hooks";

export interface Opening {
  isOpen: boolean;
  open(): void;
  close(): void;
  toggle(): void;
}

export function useOpen(first = false): Opening {
  const [isOpen, setOpen] = useState(first);
  return { isOpen, open: () => setOpen(true), close: () => setOpen(false), toggle: () => setOpen((was) => !was) };
}
