/** When the car is due out, and how many minutes that is away; changed each minute, never flashing. */

import { service as words } from "../words/service";
import { minutesLeft } from "./clock";

export function Countdown({ due_ms, now_ms, clock }: { due_ms: number; now_ms: number; clock: string }) {
  const left = minutesLeft(due_ms, now_ms);
  return (
    <div class="countdown">
      <p>
        {words.due} <span class="due">{clock}</span>
      </p>
      <p class={left < 0 ? "warn" : "strong"}>
        {left > 0 ? words.left(left) : left === 0 ? words.now : left < -60 ? words.longOver : words.over(-left)}
      </p>
      <p class="soft">{words.dueNote}</p>
    </div>
  );
}
