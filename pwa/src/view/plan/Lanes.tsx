/** A lane for each person on a clock: the drawing is true to time, the labels beside it are what one taps. */

import type { HeldPlan } from "../../flow/model";
import { peopleOf } from "../../report/plan";
import { personName } from "../labels";
import { plan as words } from "../words/plan";
import { nowOn } from "./Facts";
import { useReturn } from "./backTo";
import { clockAt, namesOf, spanOf, taskHref, taskLabel, zeroOf } from "./labels";
import { LaneDrawing, Patterns } from "./LaneDrawing";
import { type Block, type Board, boardOf, type Lane, yOf } from "./lanes";
import type { Planning } from "./usePlanning";

/** From here on a label has room for two lines of what is done. */
const TALL_PX = 70;

interface InLane extends Planning {
  held: HeldPlan;
  board: Board;
  lane: Lane;
  /** Where now is on the board, or null. */
  now_y: number | null;
}

export function Lanes(planning: Planning & { held: HeldPlan }) {
  const { state, setup, held } = planning;
  useReturn();
  const mine = state.identity?.person ?? null;
  const board = boardOf(held.plan, peopleOf(held.plan, mine), zeroOf(held.plan, setup));
  const now_s = nowOn(held, state.now);
  const now_y = now_s === null ? null : yOf(board, now_s);
  return (
    <section class="stack" aria-labelledby="lanes-title">
      <h2 id="lanes-title">{words.lanes}</h2>
      <p class="soft">{words.lanesNote}</p>
      <Patterns />
      <div class="lanes">
        {board.lanes.map((lane) => (
          <section key={lane.person} aria-label={words.lane(personName(setup, lane.person))}>
            <h3>
              {personName(setup, lane.person)}
              {lane.person === mine && <span class="soft"> ({words.you})</span>}
            </h3>
            <LaneOf {...planning} {...{ board, lane, now_y }} />
          </section>
        ))}
      </div>
    </section>
  );
}

function LaneOf(props: InLane) {
  const { state, setup, held, board, lane, now_y } = props;
  const there_s = held.plan.people.find((one) => one.person === lane.person)?.from_s ?? 0;
  return (
    // The content policy lets no style attribute through, but what a script sets on an element is its own.
    <div class="lane" style={{ height: `${board.height}px` }}>
      <LaneDrawing {...props} clock={(s) => clockAt(held.plan, setup, s)} />
      {lane.away_height > 0 && <p class="lane-away soft">{words.there(clockAt(held.plan, setup, there_s))}</p>}
      {lane.blocks.map((block) => (
        <Label key={block.task.task} {...props} block={block} />
      ))}
      {now_y !== null && (
        <p class="lane-now" style={{ top: `${now_y}px` }} aria-hidden="true">
          <span>{words.now(clockAt(held.plan, setup, nowOn(held, state.now) ?? 0))}</span>
        </p>
      )}
    </div>
  );
}

function Label({ setup, held, standing, block }: InLane & { block: Block }) {
  const { task } = block;
  const state = standing.get(task.task)?.state ?? task.state;
  const span = spanOf(held.plan, setup, task);
  const what = taskLabel(setup, task);
  const said = words.spoken(span, what, namesOf(setup, task.people), words.state[state] ?? state);
  const place = { top: `${block.label_y}px`, height: `${block.label_height}px` };
  return (
    <a
      class={`lane-task ${state} ${block.label_height < TALL_PX ? "" : "tall"}`}
      style={place}
      href={taskHref(task.task)}
      aria-label={said}
    >
      <span class="lane-what">{what}</span>
      <span class="lane-when">
        {span} · {state === "planned" ? words.kind[task.kind] : words.state[state]}
      </span>
    </a>
  );
}
