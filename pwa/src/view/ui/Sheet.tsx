/** What opens over the screen from below: reasons, more actions, a short form. Everything else waits until it is gone. */

import type { ComponentChildren, TargetedKeyboardEvent, TargetedMouseEvent } from "preact";
import { useId, useLayoutEffect, useRef } from "preact/hooks";
import "./sheet.css";
import { IconButton } from "./Button";

interface SheetProps {
  open: boolean;
  title: string;
  /** The name of the cross. */
  closeLabel: string;
  /** Escape, the cross, a tap beside it, and the phone's way back. */
  onClose: () => void;
  children: ComponentChildren;
  /** Its own dock. */
  dock?: ComponentChildren;
}

const STOPS = "a[href], button, input, select, textarea, summary, [tabindex='0']";

/** Keep Tab within an element: from its last stop to the first, and back. */
export function keepTabWithin(box: HTMLElement, event: KeyboardEvent): void {
  if (event.key !== "Tab") return;
  const stops = [...box.querySelectorAll<HTMLElement>(STOPS)].filter((one) => one.tabIndex >= 0);
  const [first, last] = [stops[0], stops.at(-1)];
  const at = document.activeElement;
  const leaves = event.shiftKey ? at === first || !stops.includes(at as HTMLElement) : at === last;
  if (!leaves || !first || !last) return;
  event.preventDefault();
  (event.shiftKey ? last : first).focus();
}

/** Open and closed as the dialog element is; it gives the focus back to what had it, in the moment in which it goes. */
function useModal(open: boolean) {
  const box = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    const dialog = box.current;
    if (!open || !dialog) return;
    const before = document.activeElement;
    dialog.showModal();
    return () => {
      dialog.close();
      // The element's own way back is lost where it leaves the page in the same moment.
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    };
  }, [open]);
  return box;
}

/** A modal dialog. The title is its name, and has the focus first: a screen reader says it, and nothing is pressed by chance. */
export function Sheet({ open, title, closeLabel, onClose, children, dock }: SheetProps) {
  const id = useId();
  const box = useModal(open);
  const cancel = (event: Event) => {
    event.preventDefault();
    onClose();
  };
  const beside = (event: TargetedMouseEvent<HTMLDialogElement>) => {
    if (event.target === event.currentTarget) onClose();
  };
  const press = (event: TargetedKeyboardEvent<HTMLDialogElement>) => keepTabWithin(event.currentTarget, event);
  if (!open) return null;
  return (
    <dialog class="ui-sheet" ref={box} aria-labelledby={id} onCancel={cancel} onClick={beside} onKeyDown={press}>
      <div class="ui-sheet-inside">
        <div class="ui-sheet-head">
          <h2 id={id} tabIndex={-1} autofocus>
            {title}
          </h2>
          <IconButton icon="close" label={closeLabel} onClick={onClose} />
        </div>
        <div class="ui-sheet-body">{children}</div>
        {dock}
      </div>
    </dialog>
  );
}
