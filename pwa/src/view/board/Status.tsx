/** The board's first lines: which car, what the log holds of its release, and how long until it is due out. */

import type { ReleaseShown } from "../../flow/model";
import { clockIn, msOf } from "../../kit/time";
import { currentService } from "../../report/service";
import { Icon } from "../bits/Icon";
import type { CarScreen } from "../screen";
import { minutesLeft } from "../service/clock";
import { nextService } from "../service/day";
import { board as words } from "../words/board";
import { common } from "../words/common";
import { queue } from "../words/queue";

export function Status({ state, setup, car }: CarScreen) {
  const entries = state.entries.map((held) => held.entry);
  const current = currentService(entries, car, setup);
  const next = nextService(entries, car, setup)?.arrive ?? null;
  return (
    <section class="board-status" aria-label={words.titles.status}>
      <p class={`board-release ${state.release?.shown ?? "not-known"}`}>
        <span class="board-car">{common.car(car)}</span>
        <Release release={state.release} />
      </p>
      {current ? (
        <Due due_ms={current.due_out_ms} now_ms={state.now} timezone={setup.timezone} />
      ) : (
        <p class="board-due">
          <span>{words.notIn}</span>
          {next !== null && <span>{words.due(clockIn(setup.timezone, msOf(next) ?? 0))}</span>}
        </p>
      )}
    </section>
  );
}

function Release({ release }: { release: ReleaseShown | null }) {
  const shown = release?.shown ?? "not-known";
  return (
    <span class="board-word">
      <Icon name={shown === "not-known" ? "unknown" : shown} />
      {release?.shown === "hold" && (
        <>
          <span class="strong">{queue.hold}</span> {words.holds(release.reasons.length)}
        </>
      )}
      {shown === "nothing-open" && words.noHold}
      {shown === "not-known" && queue.unknown}
    </span>
  );
}

function Due({ due_ms, now_ms, timezone }: { due_ms: number | null; now_ms: number; timezone: string }) {
  if (due_ms === null) return <p class="board-due">{words.noClock}</p>;
  const left = minutesLeft(due_ms, now_ms);
  return (
    <p class={left < 0 ? "board-due past" : "board-due"}>
      <span>
        {left > 0 ? words.left(left) : left === 0 ? words.dueNow : left < -60 ? words.longOver : words.over(-left)}
      </span>
      <span>{words.out(clockIn(timezone, due_ms))}</span>
    </p>
  );
}
