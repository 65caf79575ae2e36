/** In service and out of it on the officials' clock, who drives, and the release. */

import { useState } from "preact/hooks";
import type { EventSetup, Service } from "../../kit/api";
import { clockIn } from "../../kit/time";
import { currentService, officialOf } from "../../report/service";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { timeOf } from "../labels";
import { HoldBar, isManager } from "../queue/HoldBar";
import "../queue/queue.css";
import { Dated } from "../readings/Dated";
import type { AtService, CarScreen } from "../screen";
import { arrival } from "../words/arrival";
import { board } from "../words/board";
import { briefing } from "../words/briefing";
import { documents } from "../words/documents";
import { plan } from "../words/plan";
import { readings } from "../words/readings";
import { service as words } from "../words/service";
import { Countdown } from "./Countdown";
import { nextService, visitOf } from "./day";
import { Control } from "./Control";
import { Driver } from "./Driver";
import { OfficialTime } from "./OfficialTime";
import { Release } from "./Release";
import "./service.css";

export function ServiceScreen(props: CarScreen) {
  const { state, setup, car } = props;
  const entries = state.entries.map((held) => held.entry);
  const current = currentService(entries, car, setup);
  const suggested = current?.service ?? nextService(entries, car, setup)?.service ?? null;
  const [chosen, setChosen] = useState<string | null>(null);
  const service = setup.services.find((one) => one.service === (chosen ?? suggested));
  const works = (state.identity?.roles ?? []).some((role) => ["mechanic", "inspector", "manager"].includes(role));
  return (
    <div class="incar stack">
      <h1>{words.title}</h1>
      {state.release && (
        <HoldBar release={state.release} setup={setup} now_ms={state.now} isManager={isManager(state)} />
      )}
      <Links advice={state.advice} works={works} />
      <Dated setup={setup} car={car} now_ms={state.now} pressing />
      <WhichService setup={setup} service={service} onChange={setChosen} />
      {service && <Visit key={service.service} {...props} service={service} due_out_ms={dueOf(current, service)} />}
      {service && works && <Release key={`r-${service.service}`} {...props} service={service} />}
      {state.advice && !works && (
        <a class="button" href="#/queue">
          {words.seeQueue}
        </a>
      )}
      <Control {...props} />
      <Driver {...props} />
    </div>
  );
}

/** The pages that belong to a service; the plan is the crew's. */
function Links({ advice, works }: { advice: boolean; works: boolean }) {
  return (
    <nav class="row even" aria-label={words.more}>
      {works && (
        <a class="button" href="#/plan">
          {plan.toPlan}
        </a>
      )}
      <a class="button" href="#/briefing">
        {briefing.link}
      </a>
      <a class="button" href="#/arrival">
        {arrival.link}
      </a>
      <a class="button" href="#/readings">
        {readings.link}
      </a>
      <a class="button" href="#/documents">
        {documents.link}
      </a>
      {advice && (
        <a class="button" href="#/board">
          {board.link}
        </a>
      )}
    </nav>
  );
}

interface WhichServiceProps {
  setup: EventSetup;
  service: Service | undefined;
  onChange: (service: string | null) => void;
}

function WhichService({ setup, service, onChange }: WhichServiceProps) {
  return (
    <label>
      <span class="label">{words.which}</span>
      <select value={service?.service ?? ""} onChange={(event) => onChange(event.currentTarget.value || null)}>
        {!service && <option value="">{words.allDone}</option>}
        {setup.services.map((one) => (
          <option key={one.service} value={one.service}>
            {words.name(one.service, one.after)}
          </option>
        ))}
      </select>
    </label>
  );
}

const dueOf = (current: ReturnType<typeof currentService>, service: Service) =>
  current?.service === service.service ? current.due_out_ms : null;

function Visit(props: AtService & { due_out_ms: number | null }) {
  const { state, setup, car, actions, service, due_out_ms } = props;
  const now = clockIn(setup.timezone, state.now);
  const [clock, setClock] = useState<string | null>(null);
  const { busy, problem, run } = usePending();
  const { entered, left } = visitOf(
    state.entries.map((held) => held.entry),
    car,
    setup,
    service.service,
  );
  const inside = due_out_ms !== null;
  const shown = clock ?? now;
  const tap = () =>
    run(async () => {
      if (inside) await actions.leaveService(service.service, shown);
      else await actions.enterService(service.service, shown);
      setClock(null);
    });
  const last = inside ? entered : left;
  return (
    <section class="sheet" aria-labelledby="visit-title">
      <h2 id="visit-title">{words.name(service.service, service.after)}</h2>
      <p class="soft">
        {service.arrive === null
          ? words.plannedNone(service.minutes)
          : words.planned(timeOf(setup, service.arrive), service.minutes)}
      </p>
      {entered && <p>{words.isIn(clockIn(setup.timezone, officialOf(entered)))}</p>}
      {left && !inside && <p>{words.isOut(clockIn(setup.timezone, officialOf(left)))}</p>}
      {inside && <Countdown due_ms={due_out_ms} now_ms={state.now} clock={clockIn(setup.timezone, due_out_ms)} />}
      <OfficialTime label={inside ? words.outTime : words.inTime} clock={shown} onChange={setClock} />
      <button type="button" class="button main" disabled={busy} onClick={tap}>
        {inside ? words.leave(shown) : words.enter(shown)}
      </button>
      {last && last.person === state.identity?.person && (
        <button
          type="button"
          class="button quiet"
          disabled={busy}
          onClick={() => run(() => actions.voidEntry(last.id, words.undoReason))}
        >
          {inside ? words.wrongIn : words.wrongOut}
        </button>
      )}
      <ProblemLine text={problem} />
    </section>
  );
}
