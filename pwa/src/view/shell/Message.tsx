/** What just happened, spoken politely, with undo where there is one. */

import type { Actions, AppState } from "../../flow/model";
import { common } from "../words/common";

interface Message {
  message: AppState["message"];
  actions: Actions;
}

/** The region is always there, so that a screen reader hears when it fills; its buttons are no part of what is spoken. */
export function Message({ message, actions }: Message) {
  const undo = message?.undo ?? null;
  return (
    <div class="messages">
      <div class={message?.text && "message"}>
        <p role="status">{message?.text}</p>
        {undo && (
          <button
            type="button"
            class="button"
            onClick={() => {
              actions.dismiss();
              void actions.voidEntry(undo, common.undoReason);
            }}
          >
            {common.undo}
          </button>
        )}
        {message && (
          <button type="button" class="button" aria-label={common.dismiss} onClick={() => actions.dismiss()}>
            ×
          </button>
        )}
      </div>
    </div>
  );
}
