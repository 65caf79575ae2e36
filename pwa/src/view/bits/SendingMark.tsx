/** Whether an entry is on this phone only, on the server, or refused: words with a drawing. */

import type { Sending } from "../../report/local_entry";
import { common } from "../words/common";
import { Icon } from "./Icon";

export function SendingMark({ sending }: { sending: Sending }) {
  return (
    <span class={sending === "attention" ? "tag alarm" : "tag"}>
      <Icon name={sending} />
      {common.sending[sending]}
    </span>
  );
}
