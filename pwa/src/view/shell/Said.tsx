/** What just happened, above the tabs. */

import { useRef } from "preact/hooks";
import type { Actions, AppState } from "../../flow/model";
import { MessageBar, type MessageShown } from "../ui/MessageBar";
import { common } from "../words/common";

/** Another number for each message of the state: the same words twice are two. */
function useNumber(message: AppState["message"]): number {
  const last = useRef({ message, number: 0 });
  if (last.current.message !== message) last.current = { message, number: last.current.number + 1 };
  return last.current.number;
}

export function Said({ state, actions }: { state: AppState; actions: Actions }) {
  const { message, route, car, identity } = state;
  const number = useNumber(message);
  return (
    <MessageBar
      message={message && shown(message, String(number), actions)}
      place={[route.screen, route.subject, car, identity?.person].join(" ")}
      dismissLabel={common.dismiss}
      onGone={actions.dismiss}
    />
  );
}

function shown(message: NonNullable<AppState["message"]>, id: string, actions: Actions): MessageShown {
  const { text, undo, stays } = message;
  const back = undo && { label: common.undo, onUndo: () => void actions.voidEntry(undo, common.undoReason) };
  return { id, text, stays, ...(back && { undo: back }) };
}
