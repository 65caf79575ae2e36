/** Who drives from now on, one tap. */

import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { EventSetup, PersonOf } from "../../kit/api";
import { entriesOf } from "../../report/lists";
import { personName } from "../labels";
import type { CarScreen } from "../screen";
import { service as words } from "../words/service";
import { driverNow } from "./day";

/** The two in the car; everybody where the event names none, as at a school. */
function driversOf(setup: EventSetup): PersonOf[] {
  const crew = setup.people.filter((one) => one.roles.includes("driver") || one.roles.includes("co-driver"));
  return crew.length > 0 ? crew : setup.people;
}

export function Driver({ state, setup, car, actions }: CarScreen) {
  const { problem, run } = usePending();
  const now = driverNow(entriesOf(state.entries), car, setup);
  return (
    <section class="sheet" aria-label={words.driver}>
      <p>{now === null ? words.driverUnknown : words.driverNow(personName(setup, now))}</p>
      <OneOf
        legend={words.driver}
        value={now}
        options={driversOf(setup).map((one) => ({ value: one.person, label: one.name }))}
        onPick={(person) => run(() => actions.changeDriver(person))}
      />
      <ProblemLine text={problem} />
    </section>
  );
}
