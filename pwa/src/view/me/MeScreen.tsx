/** Who uses this phone, how it stands with it, and what the app is not. */

import { useState } from "preact/hooks";
import type { ScreenProps } from "../App";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { Join } from "../shell/Join";
import { common } from "../words/common";
import { me as words } from "../words/me";
import { PhoneStatus } from "./PhoneStatus";

export function MeScreen({ state, actions }: ScreenProps) {
  const { identity } = state;
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      {identity && (
        <p>
          <span class="strong">{words.iAm(identity.name)}</span>{" "}
          <span class="soft">{identity.roles.map((role) => common.role[role] ?? role).join(", ")}</span>
        </p>
      )}
      {state.token_refused && <p class="warn">{words.refused}</p>}
      <PhoneStatus state={state} actions={actions} />
      <Events state={state} actions={actions} />
      <People state={state} actions={actions} />
      <section class="sheet" aria-labelledby="not-title">
        <h2 id="not-title">{words.not}</h2>
        <p>{words.notText}</p>
      </section>
    </div>
  );
}

function Events({ state, actions }: ScreenProps) {
  if (state.events.length < 2) return null;
  return (
    <label>
      <span class="label">{words.event}</span>
      <select value={state.setup?.event ?? ""} onChange={(event) => actions.chooseEvent(event.currentTarget.value)}>
        {state.events.map((one) => (
          <option key={one.event} value={one.event}>
            {one.name}
          </option>
        ))}
      </select>
    </label>
  );
}

function People({ state, actions }: ScreenProps) {
  const [joining, setJoining] = useState(state.token_refused);
  const { problem, run } = usePending();
  return (
    <section class="sheet" aria-label={words.people}>
      {state.identities.length > 1 && (
        <OneOf
          legend={words.switchTo}
          value={state.identity?.person ?? null}
          options={state.identities.map((one) => ({ value: one.person, label: one.name }))}
          onPick={(person) => run(() => actions.switchPerson(person))}
        />
      )}
      <ProblemLine text={problem} />
      <button type="button" class="button" aria-expanded={joining} onClick={() => setJoining(!joining)}>
        {words.joinAnother}
      </button>
      {joining && (
        <>
          <p class="soft">{common.join.kept}</p>
          <Join problem={state.join_problem} actions={actions} />
        </>
      )}
      {state.identity && <p class="soft">{words.device(state.identity.device)}</p>}
    </section>
  );
}
