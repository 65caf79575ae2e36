/** Into the service and out of it, one tap each in the dock, by the officials' clock; a mis-tap is taken back. */

import { useState } from "preact/hooks";
import { clockIn } from "../../kit/time";
import { entriesOf } from "../../report/lists";
import { officialOf } from "../../report/service";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { timeOf } from "../labels";
import type { AtService } from "../screen";
import { Button } from "../ui/Button";
import { Dock } from "../ui/Dock";
import { service as words } from "../words/service";
import { visitOf } from "./day";
import { OfficialTime } from "./OfficialTime";
import { Out, outText } from "./Out";

/** Further from the due minute a clock without a day says nothing of it. */
const NEAR_MS = 6 * 3_600_000;

type VisitProps = AtService & { due_out_ms: number | null };

export function Visit(props: VisitProps) {
  const { state, setup, actions, service, due_out_ms } = props;
  const now = clockIn(setup.timezone, state.now);
  const [clock, setClock] = useState<string | null>(null);
  const { busy, problem, run } = usePending();
  const is_in = due_out_ms !== null;
  const shown = clock ?? now;
  const is_near = is_in && Math.abs(state.now - due_out_ms) < NEAR_MS;
  const tap = () =>
    run(async () => {
      if (is_in) await actions.leaveService(service.service, shown);
      else await actions.enterService(service.service, shown);
      setClock(null);
    });
  return (
    <>
      <section class="sheet" aria-labelledby="visit-title">
        <h2 id="visit-title">{words.visit}</h2>
        <p class="soft">
          {service.arrive === null
            ? words.plannedNone(service.minutes)
            : words.planned(timeOf(setup, service.arrive), service.minutes)}
        </p>
        <Said {...props} is_in={is_in} run={run} busy={busy} />
        <OfficialTime label={is_in ? words.outTime : words.inTime} clock={shown} onChange={setClock} />
        {is_near && <Out {...props} clock={shown} due_out_ms={due_out_ms} />}
      </section>
      <div class="service-dock">
        <ProblemLine text={problem} />
        <Dock
          note={is_near ? outText({ ...props, clock: shown, due_out_ms }) : undefined}
          primary={{ children: is_in ? words.leave(shown) : words.enter(shown), busy, onClick: tap }}
        />
      </div>
    </>
  );
}

interface SaidProps extends VisitProps {
  is_in: boolean;
  busy: boolean;
  run: (work: () => Promise<unknown>) => void;
}

/** When it came in and went out, as last said; who said it can take it back. */
function Said({ state, setup, car, actions, service, is_in, busy, run }: SaidProps) {
  const entries = entriesOf(state.entries);
  const { entered, left } = visitOf(entries, car, setup, service.service);
  const last = is_in ? entered : left;
  return (
    <>
      {entered && <p>{words.isIn(clockIn(setup.timezone, officialOf(entered)))}</p>}
      {left && !is_in && <p>{words.isOut(clockIn(setup.timezone, officialOf(left)))}</p>}
      {last && last.person === state.identity?.person && (
        <Button kind="text" busy={busy} onClick={() => run(() => actions.voidEntry(last.id, words.undoReason))}>
          {is_in ? words.wrongIn : words.wrongOut}
        </Button>
      )}
    </>
  );
}
