/** The drawing behind a lane's labels: minutes, bars true to time with a pattern for each kind, leaders to the labels. */

import type { PlanTask } from "../../kit/api";
import { plan as words } from "../words/plan";
import type { Block, Board, Lane } from "./lanes";

/** Pixels from the left: where the bars stand, and where the labels begin. */
const BAR_X = 46;
const BAR_WIDTH = 14;
const LABEL_X = 70;

interface Drawing {
  board: Board;
  lane: Lane;
  clock: (s: number) => string;
}

export function LaneDrawing({ board, lane, clock }: Drawing) {
  return (
    <svg class="lane-drawing" width="100%" height={board.height} aria-hidden="true" focusable="false">
      {lane.away_height > 0 && (
        <rect x={BAR_X - 4} y="0" width="100%" height={lane.away_height} fill="url(#plan-away)" />
      )}
      {board.ticks.map((tick) => (
        <line
          key={tick.s}
          class={tick.strong ? "tick strong" : "tick"}
          x1={BAR_X - 6}
          x2="100%"
          y1={tick.y}
          y2={tick.y}
        />
      ))}
      {board.ticks
        .filter((tick, place) => tick.strong || place === 0)
        .map((tick) => (
          <text key={tick.s} x={BAR_X - 10} y={tick.y + 4} text-anchor="end">
            {clock(tick.s)}
          </text>
        ))}
      <line class="end" x1={BAR_X - 6} x2="100%" y1={board.end_y} y2={board.end_y} />
      {lane.blocks.map((block) => (
        <Bar key={block.task.task} block={block} />
      ))}
    </svg>
  );
}

function Bar({ block }: { block: Block }) {
  const { bar_y, bar_height, label_y, label_height } = block;
  const height = Math.max(2, bar_height - 1.5);
  return (
    <g>
      <rect class="bar-ground" x={BAR_X} y={bar_y} width={BAR_WIDTH} height={height} />
      <rect class="bar" x={BAR_X} y={bar_y} width={BAR_WIDTH} height={height} fill={`url(#plan-${block.task.kind})`} />
      <path
        class="leader"
        d={`M${BAR_X + BAR_WIDTH} ${bar_y + Math.min(height / 2, 8)} L${LABEL_X} ${label_y + Math.min(12, label_height / 2)}`}
      />
    </g>
  );
}

/** A pattern for each kind of task, so that none is told by colour. */
const SHAPES: Record<PlanTask["kind"], string> = {
  work: "M0 0H8V8H0Z",
  open: "M-2 10L10 -2M-2 2L2 -2M6 10L10 6",
  close: "M-2 -2L10 10M6 -2L10 2M-2 6L2 10",
  inspect: "M2 2h1.5v1.5h-1.5zM6 6h1.5v1.5h-1.5zM6 2h1.5v1.5h-1.5zM2 6h1.5v1.5h-1.5z",
  check: "M0 0H8M0 0V8",
  routine: "M0 2H8M0 6H8",
};

export const Patterns = () => (
  <>
    <svg class="plan-patterns" width="0" height="0" aria-hidden="true" focusable="false">
      <defs>
        {Object.entries(SHAPES).map(([kind, shape]) => (
          <pattern key={kind} id={`plan-${kind}`} width="8" height="8" patternUnits="userSpaceOnUse">
            <path class={kind === "work" ? "solid" : "lines"} d={shape} />
          </pattern>
        ))}
        <pattern id="plan-away" width="12" height="12" patternUnits="userSpaceOnUse">
          <path class="faint" d="M0 12L12 0" />
        </pattern>
      </defs>
    </svg>
    <ul class="row plan-key">
      {Object.keys(SHAPES).map((kind) => (
        <li key={kind} class="row">
          <svg width="16" height="24" aria-hidden="true" focusable="false">
            <rect class="bar" x="1" y="1" width="14" height="22" fill={`url(#plan-${kind})`} />
          </svg>
          {words.kind[kind]}
        </li>
      ))}
    </ul>
  </>
);
