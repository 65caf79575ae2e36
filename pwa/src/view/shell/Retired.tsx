/** Says, on every screen of a car that has retired, where and whether it restarts; leads to the page of it. */

import type { AppState } from "../../flow/model";
import type { EventSetup } from "../../kit/api";
import { remembered } from "../../kit/remembered";
import { entriesOf } from "../../report/lists";
import { type Retirement, retirementOf } from "../../report/retirement";
import { clockOnDay } from "../labels";
import { Icon } from "../ui/Icon";
import { common } from "../words/common";
import { retired as words } from "../words/retired";
import "./retired.css";

interface Props {
  state: AppState;
  setup: EventSetup;
  car: string;
}

// Asked at each drawing.
const standing = remembered((entries: AppState["entries"], car: string, setup: EventSetup) =>
  retirementOf(entriesOf(entries), car, setup),
);

export function Retired({ state, setup, car }: Props) {
  const held = standing(state.entries, car, setup);
  if (!held || state.route.screen === "retired") return null;
  return (
    <a class="retired-line" href="#/retired">
      <Icon name="caution" size={20} />
      <span>{textOf(held, setup, state.now)}</span>
      <Icon name="forward" size={20} />
    </a>
  );
}

/** "Retired: SS3, km 4.2. Restart: not known yet", "Restarts: ready by Sun, 14 Jun 2026, 07:00". */
function textOf({ retired, now }: Retirement, setup: EventSetup, now_ms: number): string {
  if (now.state === "restarts") return words.lineReady(clockOnDay(setup, now.by_ms, now_ms));
  const { stage, km } = retired?.data ?? {};
  const where = [stage, typeof km === "number" ? common.km(km) : null].filter(Boolean).join(", ");
  return words.line(where, words.restarts[now.restart] ?? now.restart);
}
