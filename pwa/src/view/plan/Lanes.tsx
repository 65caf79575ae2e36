/** Everybody under one clock: a lane for each person, true to time. A lane leads to the list of its tasks. */

import type { HeldPlan } from "../../flow/model";
import { isAwayForAll, nextOf, peopleOf } from "../../report/plan";
import { personName } from "../labels";
import { plan as words } from "../words/plan";
import { nowOn } from "./Facts";
import { clockAt, listId, shortLabel, spanOf, taskLabel, zeroOf } from "./labels";
import { type Block, type Board, boardOf, type Lane, leftOf, movesCar, type Stretch } from "./lanes";
import type { Planning } from "./usePlanning";

type WithPlan = Planning & { held: HeldPlan };

export function Lanes(planning: WithPlan) {
  const { state, setup, held } = planning;
  const mine = state.identity?.person ?? null;
  const now_s = nowOn(held, setup, state.now);
  const board = boardOf(held.plan, peopleOf(held.plan, mine), zeroOf(held.plan, setup), now_s);
  const now = now_s === null ? null : leftOf(board, now_s);
  return (
    <section class="plan-board" aria-labelledby="lanes-title">
      <h2 id="lanes-title">{words.lanes}</h2>
      <Key board={board} />
      {/* The content policy lets no style attribute through, but what a script sets on an element is its own. */}
      <div class="lanes">
        <Clock {...planning} board={board} />
        {board.lanes.map((lane) => (
          <LaneRow key={lane.person} {...planning} lane={lane} isMine={lane.person === mine} />
        ))}
        <div class="lanes-over" aria-hidden="true">
          {board.moving.map((one) => (
            <span key={one.left} class="lanes-moving" style={placed(one)} />
          ))}
          <span class="lanes-end" style={{ left: percent(board.end) }} />
          {now !== null && (
            <span class="lanes-now" style={{ left: percent(now) }}>
              <b>{clockAt(held.plan, setup, now_s ?? 0)}</b>
            </span>
          )}
        </div>
      </div>
    </section>
  );
}

const percent = (value: number) => `${value}%`;
const placed = ({ left, width }: Stretch) => ({ left: percent(left), width: percent(width) });

function Clock({ setup, held, board }: WithPlan & { board: Board }) {
  return (
    <div class="lanes-clock" aria-hidden="true">
      {board.ticks.map((tick) => (
        <span key={tick.s} style={{ left: percent(tick.left) }}>
          {clockAt(held.plan, setup, tick.s)}
        </span>
      ))}
    </div>
  );
}

function LaneRow(props: WithPlan & { lane: Lane; isMine: boolean }) {
  const { setup, held, standing, lane, isMine } = props;
  const name = personName(setup, lane.person);
  const next = nextOf(held.plan, lane.person, standing);
  const doing = next ? `${spanOf(held.plan, setup, next)} ${taskLabel(setup, next)}` : words.nothingNext;
  const there_s = thereFrom(held, lane.person);
  const there = isAwayForAll(there_s / 60) ? words.awayForAll : words.there(clockAt(held.plan, setup, there_s));
  const away = lane.away ? ` (${there})` : "";
  return (
    <button
      type="button"
      class="lane"
      onClick={() => toList(lane.person)}
      aria-label={words.laneSaid(name + away, doing)}
    >
      <span class={isMine ? "lane-name mine" : "lane-name"}>{name}</span>
      <span class="lane-track">
        {lane.away && (
          <span class="lane-away" style={placed(lane.away)}>
            <span>{there}</span>
          </span>
        )}
        {lane.blocks.map((block) => (
          <Bar key={block.task.task} {...props} block={block} />
        ))}
      </span>
    </button>
  );
}

const thereFrom = ({ plan }: HeldPlan, person: string) => plan.people.find((one) => one.person === person)?.from_s ?? 0;

function toList(person: string): void {
  const list = document.getElementById(listId(person));
  list?.focus({ preventScroll: true });
  list?.scrollIntoView({ block: "start" });
}

function Bar({ setup, standing, block }: WithPlan & { block: Block }) {
  const { task } = block;
  const state = standing.get(task.task)?.state ?? task.state;
  const kind = movesCar(task) ? "moves" : task.kind;
  return (
    <span class={`lane-bar is-${kind} ${state}`} style={placed(block)}>
      <span>{shortLabel(setup, task)}</span>
    </span>
  );
}

const KINDS = ["work", "inspect", "check", "routine", "open"] as const;

/** What the shapes stand for. */
function Key({ board }: { board: Board }) {
  return (
    <ul class="plan-key">
      {KINDS.map((kind) => (
        <li key={kind}>
          <span class={`lane-bar is-${kind}`} aria-hidden="true" /> {words.key[kind]}
        </li>
      ))}
      {board.moving.length > 0 && (
        <li>
          <span class="lanes-moving" aria-hidden="true" /> {words.key.moves}
        </li>
      )}
    </ul>
  );
}
