/** Driver and co-driver say that they were told, one tap each; who has not joined on this phone does so on the own one. */

import { useState } from "preact/hooks";
import type { Briefing, Identity } from "../../flow/model";
import type { PersonOf } from "../../kit/api";
import { type Acknowledged, acknowledgedBy } from "../../report/briefing";
import { entriesOf } from "../../report/lists";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { type Pending, usePending } from "../bits/usePending";
import { personName, timeOf } from "../labels";
import type { CarScreen } from "../screen";
import { driverNow } from "../service/day";
import { briefing as words } from "../words/briefing";
import { people as peopleWords } from "../words/people";

/** `live`: the log as it is now, not a copy that was given. */
type OfBriefing = CarScreen & { briefing: Briefing; live: boolean };
const ROLES = ["driver", "co-driver"] as const;
type CrewRole = (typeof ROLES)[number];

export function Told(props: OfBriefing) {
  const { state, setup, briefing } = props;
  const pending = usePending();
  const told = acknowledgedBy(state.entries, briefing, setup);
  return (
    <section class="sheet" aria-labelledby="told-title">
      <h2 id="told-title">{words.told}</h2>
      {ROLES.map((role) => (
        <Seat key={role} {...props} role={role} told={told} pending={pending} />
      ))}
      <ProblemLine text={pending.problem} />
    </section>
  );
}

function Seat({
  role,
  told,
  pending,
  ...props
}: OfBriefing & { role: CrewRole; told: Acknowledged[]; pending: Pending }) {
  const { state, setup, live } = props;
  const mayBe = seat(role, props);
  const said = told.filter((one) => mayBe.some((other) => other.person === one.person)).at(-1);
  const name = words.role[role] ?? role;
  if (said && !(live && said.changed)) {
    return <p class="strong">{words.toldAt(name, personName(setup, said.person), timeOf(setup, said.at))}</p>;
  }
  const here = mayBe.flatMap((one) => state.identities.find((other) => other.person === one.person) ?? []);
  const away = mayBe.filter((one) => !here.some((other) => other.person === one.person));
  return (
    <div class="stack">
      <p>
        {said ? words.toldBefore(name, personName(setup, said.person), timeOf(setup, said.at)) : words.notTold(name)}
      </p>
      {here.map((one) => (
        <Tap key={one.person} {...props} one={one} pending={pending} />
      ))}
      {here.length === 0 && away.length > 0 && (
        <p class="soft">{words.elsewhere(away.map((one) => one.name).join(", "))}</p>
      )}
    </div>
  );
}

/** Who may sit there: the one who was said to drive, or who reported from this car; else all of the role. */
function seat(role: CrewRole, { state, setup, car }: CarScreen): PersonOf[] {
  const all = setup.people.filter((one) => one.roles.includes(role));
  const entries = entriesOf(state.entries);
  const driver = role === "driver" ? driverNow(entries, car, setup) : null;
  const named = all.filter((one) => one.person === driver);
  const spoke = new Set(entries.filter((entry) => entry.car === car).map((entry) => entry.person));
  const seen = all.filter((one) => spoke.has(one.person));
  return [named, seen, all].find((some) => some.length > 0) ?? [];
}

function Tap({ state, actions, briefing, one, pending }: OfBriefing & { one: Identity; pending: Pending }) {
  const [pin, setPin] = useState("");
  const isOther = one.person !== state.identity?.person;
  const asks = isOther && one.has_pin;
  return (
    <>
      {asks && <PinField label={peopleWords.pinOf(one.name)} value={pin} onChange={setPin} />}
      <button
        type="button"
        class="button main"
        disabled={pending.busy || (asks && pin === "")}
        onClick={() => pending.run(() => actions.acknowledgeBriefing(briefing, one.person, pin))}
      >
        {words.tap(one.name)}
      </button>
    </>
  );
}
