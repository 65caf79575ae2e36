/** What just happened, above the tabs: spoken politely, with undo where there is one, and gone by itself. */

import { useEffect, useRef, useState } from "preact/hooks";
import "./sheet.css";
import { Icon } from "./Icon";
import { useArmed } from "./useArmed";

/** How long it stands. It can be undone later too, where the thing itself is. */
export const MESSAGE_MS = 6000;

export interface MessageShown {
  /** Another one for each message, so that the same words twice are two. */
  id: string;
  text: string;
  /** It is so for as long as it stands there, as that nothing can be kept: only the cross takes it away. */
  stays?: boolean;
  undo?: { label: string; onUndo: () => void };
}

interface MessageBarProps {
  message: MessageShown | null;
  /** Where it was said: the screen, the car and the person. It is gone when any of them changes. */
  place: string;
  dismissLabel: string;
  onGone: () => void;
}

/** Call `gone` after a while in which neither finger nor focus is on the bar; each message begins the while again. */
function useGone(id: string | null, isHeld: boolean, gone: () => void) {
  const latest = useRef(gone);
  latest.current = gone;
  useEffect(() => {
    if (id === null || isHeld) return;
    const timer = setTimeout(() => latest.current(), MESSAGE_MS);
    return () => clearTimeout(timer);
  }, [id, isHeld]);
}

/** A form that saves and leaves says so where it leads: what is younger than this has come along. */
const CAME_ALONG_MS = 1000;

/** Call `gone` when the place changes under a message. */
function useLeft(place: string, id: string | null, gone: () => void) {
  const before = useRef(place);
  const shown = useRef({ id, since: 0 });
  useEffect(() => {
    if (shown.current.id !== id) shown.current = { id, since: Date.now() };
    const left = before.current !== place;
    before.current = place;
    if (left && id !== null && Date.now() - shown.current.since > CAME_ALONG_MS) gone();
  });
}

/** The region is always there, so that a screen reader hears when it fills; its buttons are no part of what is spoken. */
export function MessageBar({ message, place, dismissLabel, onGone }: MessageBarProps) {
  const [isHeld, setHeld] = useState(false);
  const gone = () => {
    setHeld(false);
    onGone();
  };
  const id = message && !message.stays ? message.id : null;
  useGone(id, isHeld, gone);
  useLeft(place, id, gone);
  const hold = { onFocusIn: () => setHeld(true), onFocusOut: () => setHeld(false) };
  const undo = message?.undo;
  const armed = useArmed(message?.id ?? null);
  return (
    <div class="ui-message-place" onPointerEnter={() => setHeld(true)} onPointerLeave={() => setHeld(false)} {...hold}>
      <div class={message ? "ui-message" : ""}>
        <p role="status">{message?.text}</p>
        {undo && (
          <button
            type="button"
            aria-disabled={!armed}
            onClick={() => {
              if (!armed) return;
              gone();
              undo.onUndo();
            }}
          >
            {undo.label}
          </button>
        )}
        {message && (
          <button type="button" class="ui-message-dismiss" aria-label={dismissLabel} onClick={gone}>
            <Icon name="close" size={20} />
          </button>
        )}
      </div>
    </div>
  );
}
