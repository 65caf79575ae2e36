/** The board's first lines: which car, what the log holds of its release, and how long until it is due out. */

import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { ReleaseShown } from "../../flow/model";
import { clockIn, msOf } from "../../kit/time";
import { entriesOf } from "../../report/lists";
import { currentService } from "../../report/service";
import { Icon } from "../bits/Icon";
import type { CarScreen } from "../screen";
import { minutesLeft } from "../service/clock";
import { countsOf } from "../shell/holdCounts";
import { nextService } from "../service/day";
import { board as words } from "../words/board";
import { common } from "../words/common";
import { queue } from "../words/queue";

interface StatusProps extends CarScreen {
  title: string;
  children: ComponentChildren;
}

export function Status({ state, setup, car, title, children }: StatusProps) {
  const entries = entriesOf(state.entries);
  const current = currentService(entries, car, setup);
  const next = nextService(entries, car, setup)?.arrive ?? null;
  return (
    <>
      <p class={`board-release ${state.release?.shown ?? "not-known"}`}>
        <span class="board-car">{common.car(car)}</span>
        <Release release={state.release} />
        {current && (
          <span class="board-out">{words.at(current.service, outOf(current.due_out_ms, setup.timezone))}</span>
        )}
      </p>
      <section class="board-status" aria-label={title}>
        {current ? (
          <Due due_ms={current.due_out_ms} />
        ) : (
          <p class="board-due">
            <span>{words.notIn}</span>
            {next !== null && <span>{words.due(clockIn(setup.timezone, msOf(next) ?? 0))}</span>}
          </p>
        )}
        {children}
      </section>
    </>
  );
}

const outOf = (due_ms: number | null, timezone: string) =>
  due_ms === null ? words.noClock : words.out(clockIn(timezone, due_ms));

function Release({ release }: { release: ReleaseShown | null }) {
  const shown = release?.shown ?? "not-known";
  return (
    <span class="board-word">
      <Icon name={shown === "not-known" ? "unknown" : shown} />
      {release?.shown === "hold" && (
        <>
          <span class="strong">{queue.hold}</span> {countsOf(release.reasons)}
        </>
      )}
      {shown === "nothing-open" && words.noHold}
      {shown === "not-known" && queue.unknown}
    </span>
  );
}

const SECOND_MS = 1000;

/** Seconds run only while somebody may look. */
function useSeconds(): number {
  const [now, setNow] = useState(Date.now);
  useEffect(() => {
    const timer = setInterval(() => document.hidden || setNow(Date.now()), SECOND_MS);
    return () => clearInterval(timer);
  }, []);
  return now;
}

/** The clock that everybody looks for; a screen reader has its minutes. */
function Due({ due_ms }: { due_ms: number | null }) {
  const now_ms = useSeconds();
  if (due_ms === null) return <p class="board-due">{words.noClock}</p>;
  const late = minutesLeft(due_ms, now_ms) < 0;
  const left_s = Math.ceil((Math.floor(due_ms / 60_000) * 60_000 - now_ms) / SECOND_MS);
  if (left_s < -3600) return <p class="board-due past">{words.longOver}</p>;
  // The whole due minute is on time: the clock stands at nought through it.
  const shown_s = late ? -left_s : Math.max(0, left_s);
  const [minutes, seconds] = [Math.floor(shown_s / 60), shown_s % 60];
  return (
    <p class={late ? "board-due past" : "board-due"}>
      <span class="board-clock">{`${late ? "−" : ""}${minutes}:${String(seconds).padStart(2, "0")}`}</span>
      <span>{late ? words.pastDue : words.toLeave}</span>
    </p>
  );
}
