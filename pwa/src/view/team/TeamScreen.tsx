/** `#/team`: all cars with one crew under one clock: who is at which car when, each car's end against its time, who is away. */

import { useEffect, useRef, useState } from "preact/hooks";
import { isAwayForAll } from "../../report/plan";
import { isWorking } from "../../report/road";
import { Icon } from "../bits/Icon";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { heardAt, personName } from "../labels";
import { thereFrom } from "../lanes/board";
import "../plan/cards.css";
import "../plan/plan.css";
import "../queue/queue.css";
import type { CarScreen } from "../screen";
import "../service/service.css";
import { plan as planWords } from "../words/plan";
import { team as words } from "../words/team";
import { CarFacts } from "./CarFacts";
import { clockOfAll } from "./clock";
import { TeamAsk } from "./TeamAsk";
import { TeamChoices } from "./TeamChoices";
import { TeamLanes } from "./TeamLanes";
import { TeamOut } from "./TeamOut";
import { TeamTasks } from "./TeamTasks";
import "./team.css";
import { type Teaming, useTeam } from "./useTeam";

export function TeamScreen(props: CarScreen) {
  const works = isWorking(props.state.identity?.roles ?? []);
  if (works && props.setup.cars.length > 1) return <Several {...props} />;
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <p>{works ? words.oneCar : planWords.onlyCrew}</p>
      {works && (
        <a class="button" href="#/plan">
          {words.toPlan}
        </a>
      )}
    </div>
  );
}

function Several(props: CarScreen) {
  const teaming = useTeam(props);
  const { held } = teaming;
  return (
    <div class="stack plan team">
      <h1>{held ? words.titleOf(held.wish.service) : words.title}</h1>
      <Reached {...teaming} />
      {held ? <Found {...teaming} held={held} /> : <TeamAsk {...teaming} />}
    </div>
  );
}

/** Only the server plans for all cars: where it can't be had, the plan kept here is the last one, and says so. */
function Reached({ state, setup, held }: Teaming) {
  if (!state.unreachable && !state.failed) return null;
  return (
    <p class="strong" role="status">
      <Icon name="attention" /> {state.failed ? words.fault : words.unreachable}
      {held && ` ${words.kept(heardAt(setup, held.heard_at, state.now))}`}
    </p>
  );
}

function Found(teaming: Teaming & { held: NonNullable<Teaming["held"]> }) {
  const { state, setup, held } = teaming;
  const [asking, setAsking] = useState(false);
  const again = useRef<HTMLDetailsElement>(null);
  const shared = held.plan.resources.map((one) => words.sharedCount(one.count, one.resource)).join(", ");
  useEffect(() => {
    if (!asking) return;
    again.current?.scrollIntoView({ block: "start" });
    again.current?.querySelector("summary")?.focus({ preventScroll: true });
  }, [asking]);
  return (
    <>
      <Stands {...teaming} />
      <CarFacts {...teaming} />
      <AwayNow {...teaming} onChange={() => setAsking(true)} />
      <TeamLanes {...teaming} />
      <TeamChoices {...teaming} />
      <TeamTasks {...teaming} />
      <TeamOut {...teaming} />
      <div class="stack">
        <p class="soft">
          {planWords.workedOut(heardAt(setup, held.heard_at, state.now))}
          {held.plan.by === "solver" && ` · ${held.plan.proven ? planWords.proven : planWords.notProven}`}{" "}
          {shared && words.shared(shared)} {planWords.rulesDecide}
        </p>
        {teaming.change === "none" && <Again {...teaming} />}
        <a class="button" href="#/plan">
          {words.toPlan}
        </a>
      </div>
      <details class="sheet" ref={again} open={asking} onToggle={(event) => setAsking(event.currentTarget.open)}>
        <summary>{words.ask.title}</summary>
        <TeamAsk key={held.heard_at} {...teaming} />
      </details>
    </>
  );
}

/** What has to be said before the lanes are read: it is old, or still being improved. */
function Stands(teaming: Teaming & { held: NonNullable<Teaming["held"]> }) {
  const { held, improving, change, state } = teaming;
  const isQuick = held.plan.by === "greedy" && !state.unreachable;
  return (
    <>
      {isQuick && (
        <p class="strong" role="status">
          {improving ? words.greedy : words.greedyOnly}
        </p>
      )}
      {change === "news" && (
        <p class="strong" role="status">
          <Icon name="attention" /> {words.news}
        </p>
      )}
      {change !== "none" && <Again {...teaming} />}
    </>
  );
}

function Again({ held, ask, at, change }: Teaming & { held: NonNullable<Teaming["held"]> }) {
  const { busy, problem, run } = usePending();
  const said = busy ? words.ask.asking : at === null ? words.again : words.rest;
  return (
    <>
      <button
        type="button"
        class={change === "news" ? "button main" : "button"}
        disabled={busy}
        onClick={() => run(() => ask(held.wish))}
      >
        {said}
      </button>
      <ProblemLine text={problem} />
    </>
  );
}

/** Who is away, until when, by the plan's own clock. */
function AwayNow({
  setup,
  held,
  parts,
  onChange,
}: Teaming & { held: NonNullable<Teaming["held"]>; onChange: () => void }) {
  const people = [...new Set(parts.flatMap((one) => one.plan.people.map(({ person }) => person)))];
  const away = people.flatMap((person) => {
    const there_s = thereFrom(parts, person);
    if (there_s === 0) return [];
    const name = personName(setup, person);
    return [
      isAwayForAll(there_s / 60) ? words.away.all(name) : words.away.until(name, clockOfAll(held, setup, there_s)),
    ];
  });
  const { mechanics } = held.wish;
  return (
    <section class="team-away" aria-labelledby="away-title">
      <h2 id="away-title">{words.away.title}</h2>
      {away.length === 0 ? (
        <p>{words.away.none}</p>
      ) : (
        <ul class="bulleted">
          {away.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      )}
      {mechanics !== null && <p>{words.away.only(mechanics)}</p>}
      <button type="button" class="button quiet" onClick={onChange}>
        {words.away.change}
      </button>
    </section>
  );
}
