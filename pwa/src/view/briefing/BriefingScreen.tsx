/** The card that is read aloud at service out, in large type; what was shown in service stays readable on the road. */

import { useEffect } from "preact/hooks";
import type { Briefing, ReleaseShown } from "../../flow/model";
import type { EventSetup } from "../../kit/api";
import { type BriefingInput, briefingOf, type LookLeft } from "../../report/briefing";
import { entriesOf } from "../../report/lists";
import { currentService, lastServiceEntered } from "../../report/service";
import { groupLabel } from "../plan/labels";
import { jobLabel, timeOf } from "../labels";
import { partName } from "../queue/partName";
import "../queue/queue.css";
import type { CarScreen } from "../screen";
import { briefing as words } from "../words/briefing";
import { queue } from "../words/queue";
import "./briefing.css";
import { Told } from "./Told";

export function BriefingScreen(props: CarScreen) {
  const { state, setup, car, actions } = props;
  const now = live(props);
  const shown = now ?? state.briefing;
  const key = now && keyOf(now);
  useEffect(() => {
    if (now && key !== (state.briefing && keyOf(state.briefing))) void actions.keepBriefing(now);
  }, [key]);
  return (
    <div class="stack card">
      <h1>{words.title}</h1>
      {shown ? (
        <>
          <p class="strong">{words.of(car, shown.service)}</p>
          {!now && <p>{words.kept(timeOf(setup, shown.made_at))}</p>}
          {!now && <p>{held(shown.release)}</p>}
          <Card setup={setup} briefing={shown} />
          <Told {...props} briefing={shown} live={now !== null} />
        </>
      ) : (
        <>
          <p>{words.none}</p>
          <p>{words.noneNote}</p>
        </>
      )}
    </div>
  );
}

/** What the log says now; null on the road where the event forbids advice, and before the first service. */
function live({ state, setup, car }: CarScreen): Briefing | null {
  if (!state.advice || !state.queue) return null;
  const entries = entriesOf(state.entries);
  const service =
    currentService(entries, car, setup)?.service ?? lastServiceEntered(entries, car, setup)?.data.service ?? null;
  if (service === null) return null;
  const input: BriefingInput = {
    setup,
    service,
    queue: state.queue.answer,
    entries,
    plan: state.plans.find((one) => one.plan.service === service)?.plan ?? null,
    release: state.release?.shown ?? "not-known",
    made_at: new Date(state.now).toISOString(),
  };
  return briefingOf(input);
}

/** All of it but when it was made. */
const keyOf = ({ made_at: _, ...rest }: Briefing) => JSON.stringify(rest);

const held = (shown: ReleaseShown["shown"]) =>
  ({ hold: words.hold, "nothing-open": words.nothing, "not-known": words.unknown })[shown];

function Card({ setup, briefing }: { setup: EventSetup; briefing: Briefing }) {
  const map = setup.car_map;
  const { done, not_done, watch, aboard, tools } = briefing;
  return (
    <>
      <Part id="watch" title={words.watch} none={words.watchNone}>
        {watch.map((one) => (
          <li key={`${one.job} ${one.why}`}>
            <b>{jobLabel(map, one.job)}</b>: {one.until === null ? words.why[one.why] : words.until(one.until)}
            <Look look={one.look} />
          </li>
        ))}
      </Part>
      <Part id="not-done" title={words.notDone} none={words.notDoneNone}>
        {not_done.map((one) => (
          <li key={one.job}>
            <b>{jobLabel(map, one.job)}</b>
            {one.left_to && `: ${words.toNext}`}
            <Look look={one.look} />
          </li>
        ))}
      </Part>
      <Part id="done" title={words.done} none={words.doneNone}>
        {done.map((one) => (
          <li key={one.job}>
            {groupLabel(setup, one.job)}
            {one.action && `: ${queue.action(one.action).toLowerCase()}`}
          </li>
        ))}
      </Part>
      <Part id="aboard" title={words.aboard} none={words.aboardNone}>
        {aboard.map(({ part, qty }) => (
          <li key={part}>{queue.part(qty, partName(setup, part))}</li>
        ))}
        {tools.length > 0 && (
          <li>
            {words.tools}: {tools.map((tool) => tool.replaceAll("-", " ")).join(", ")}
          </li>
        )}
      </Part>
      <p class="soft">{words.log}</p>
    </>
  );
}

const Look = ({ look }: { look: LookLeft }) => (look === null ? null : <span class="warn">, {words.look[look]}</span>);

function Part({ id, title, none, children }: { id: string; title: string; none: string; children: unknown[] }) {
  const lines = children.flat().filter(Boolean);
  return (
    <section class="sheet" aria-labelledby={`card-${id}`}>
      <h2 id={`card-${id}`}>{title}</h2>
      {lines.length === 0 ? <p>{none}</p> : <ul class="bulleted">{lines as preact.ComponentChildren}</ul>}
    </section>
  );
}
