/**
 * Everybody under one clock: a lane for each person, true to time, of one car or of all. A lane leads to the list of its
 * tasks. Of several cars each has a line of its own above them, and each block says its car by number and pattern.
 */

import { listId } from "../plan/labels";
import { plan as words } from "../words/plan";
import type { Block, Board, CarLane, Lane, Stretch } from "./board";
import { leftOf, movesCar } from "./board";
import { CarMark } from "./CarMark";
import "./lanes.css";

export interface LaneBoardProps {
  board: Board;
  /** A time of the board's clock in words. */
  clock: (s: number) => string;
  /** Now on the board's clock; null where no car is in. */
  now_s: number | null;
  /** Who uses this phone. */
  mine: string | null;
  nameOf: (person: string) => string;
  /** What a block says, and how its task stands. */
  labelOf: (block: Block) => string;
  stateOf: (block: Block) => string;
  /** Until when somebody who is not there yet is away. */
  thereOf: (person: string) => string;
  /** What comes next for somebody, in words. */
  nextOf: (person: string) => string;
}

export function LaneBoard(props: LaneBoardProps) {
  const { board, clock, now_s, mine } = props;
  const several = board.cars.length > 1;
  const now = now_s === null ? null : leftOf(board, now_s);
  return (
    <section class="plan-board" aria-labelledby="lanes-title">
      <h2 id="lanes-title">{words.lanes}</h2>
      <Key board={board} />
      <div class="lanes-scroll">
        {/* The content policy lets no style attribute through, but what a script sets on an element is its own. */}
        <div
          class={several ? "lanes several" : "lanes"}
          style={{ "--minutes": (board.to_s - board.from_s) / 60, "--cars": board.cars.length }}
        >
          <Clock {...props} />
          {several && board.cars.map((one, place) => <CarRow key={one.car} lane={one} place={place} />)}
          {board.lanes.map((lane) => (
            <LaneRow key={lane.person} {...props} lane={lane} isMine={lane.person === mine} />
          ))}
          <div class="lanes-over" aria-hidden="true">
            {board.cars.map((one, place) => (
              <Over key={one.car} lane={one} place={several ? place : null} />
            ))}
            {now !== null && (
              <span class="lanes-now" style={{ left: percent(now) }}>
                <b>{clock(now_s ?? 0)}</b>
              </span>
            )}
          </div>
        </div>
      </div>
    </section>
  );
}

/** A tick's time would stand half outside there. */
const NEAR_END = 97;

const percent = (value: number) => `${value}%`;
const placed = ({ left, width }: Stretch) => ({ left: percent(left), width: percent(width) });
const patternOf = (place: number | null) => (place === null ? "" : ` of-${place % 4}`);

function Clock({ board, clock }: LaneBoardProps) {
  return (
    <div class="lanes-clock" aria-hidden="true">
      <span class="lanes-corner" />
      <span class="lanes-ticks">
        {board.ticks.map((tick) => (
          <span key={tick.s} class={tick.left > NEAR_END ? "at-end" : ""} style={{ left: percent(tick.left) }}>
            {clock(tick.s)}
          </span>
        ))}
      </span>
    </div>
  );
}

/** What shades everybody's lanes: while the car moves nobody is at it, and there its time ends. */
function Over({ lane, place }: { lane: CarLane; place: number | null }) {
  return (
    <>
      {lane.moving.map((one) => (
        <span key={one.left} class={`lanes-moving${patternOf(place)}`} style={placed(one)} />
      ))}
      <span class="lanes-end" style={{ left: percent(lane.end) }}>
        {place !== null && <b style={{ "--place": place }}>{words.endOf(lane.car)}</b>}
      </span>
    </>
  );
}

/** One of several cars: how long it is worked on, when it goes up and down, what of it is late. */
function CarRow({ lane, place }: { lane: CarLane; place: number }) {
  return (
    <div class="lane lane-car-row" aria-hidden="true">
      <span class="lane-name">
        <CarMark car={lane.car} place={place} />
      </span>
      <span class="lane-track">
        <span class={`lane-worked${patternOf(place)}`} style={placed(lane.worked)} />
        {lane.late && (
          <span class="lane-late" style={placed(lane.late)}>
            <span>{words.lateShort}</span>
          </span>
        )}
        {lane.moving.map((one) => (
          <span key={one.left} class={`lane-bar is-moves${patternOf(place)}`} style={placed(one)}>
            <span>{words.moving[one.task.kind === "close" ? "down" : "up"]}</span>
          </span>
        ))}
      </span>
    </div>
  );
}

function LaneRow(props: LaneBoardProps & { lane: Lane; isMine: boolean }) {
  const { lane, isMine, nameOf, thereOf, nextOf } = props;
  const name = nameOf(lane.person);
  const there = lane.away && thereOf(lane.person);
  return (
    <button
      type="button"
      class="lane"
      onClick={() => toList(lane.person)}
      aria-label={words.laneSaid(there ? `${name} (${there})` : name, nextOf(lane.person))}
    >
      <span class={isMine ? "lane-name mine" : "lane-name"}>{name}</span>
      <span class="lane-track">
        {lane.away && (
          <span class="lane-away" style={placed(lane.away)}>
            <span>{there}</span>
          </span>
        )}
        {lane.blocks.map((block) => (
          <Bar key={`${block.car} ${block.task.task}`} {...props} block={block} />
        ))}
      </span>
    </button>
  );
}

function toList(person: string): void {
  const list = document.getElementById(listId(person));
  list?.focus({ preventScroll: true });
  list?.scrollIntoView({ block: "start" });
}

function Bar({ board, block, labelOf, stateOf }: LaneBoardProps & { block: Block }) {
  const { task, car } = block;
  const kind = movesCar(task) ? "moves" : task.kind;
  const place = board.cars.length > 1 ? board.cars.findIndex((one) => one.car === car) : null;
  return (
    <span class={`lane-bar is-${kind} ${stateOf(block)}${patternOf(place)}`} style={placed(block)}>
      {place !== null && <b>{car}</b>}
      <span>{labelOf(block)}</span>
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
      {board.cars.some((one) => one.moving.length > 0) && (
        <li>
          <span class="lanes-moving" aria-hidden="true" /> {words.key.moves}
        </li>
      )}
    </ul>
  );
}
