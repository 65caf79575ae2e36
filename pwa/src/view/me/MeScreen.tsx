/** Who uses this phone, how it stands with it, and what the app is not. */

import { useState } from "preact/hooks";
import type { ScreenProps } from "../screen";
import { Join } from "../shell/Join";
import { People } from "../shell/People";
import { common } from "../words/common";
import { me as words } from "../words/me";
import { people } from "../words/people";
import { HomeScreen } from "./HomeScreen";
import { LanguageChoice } from "./LanguageChoice";
import { Numbers } from "./Numbers";
import { PhoneStatus } from "./PhoneStatus";
import { Pin } from "./Pin";
import { Themes } from "./Themes";

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
      <HomeScreen state={state} actions={actions} />
      <Themes />
      <Numbers state={state} />
      <Events state={state} actions={actions} />
      {identity?.roles.includes("manager") && (
        <>
          <a class="button" href="#/aside">
            {words.aside}
          </a>
          <a class="button" href="#/walk">
            {words.walk}
          </a>
        </>
      )}
      {identity?.roles.includes("manager") && (
        <a class="button" href="#/setup">
          {words.setup}
        </a>
      )}
      <a class="button" href="#/handover">
        {words.handover}
      </a>
      <Joined state={state} actions={actions} />
      {/* Each person's own form: what one typed is not for the next. */}
      {identity && <Pin key={identity.device} state={state} actions={actions} />}
      <LanguageChoice />
      <section class="sheet" aria-labelledby="not-title">
        <h2 id="not-title">{words.not}</h2>
        <p>{words.notText}</p>
        <a class="button" href="#/about">
          {words.about}
        </a>
        <a class="button" href="#/looks">
          {words.looks}
        </a>
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

function Joined({ state, actions }: ScreenProps) {
  const [joining, setJoining] = useState(state.token_refused);
  return (
    <section class="sheet" aria-label={words.people}>
      {state.identities.length > 1 && <People state={state} actions={actions} onDone={() => {}} />}
      <button type="button" class="button" aria-expanded={joining} onClick={() => setJoining(!joining)}>
        {words.joinAnother}
      </button>
      {joining && (
        <>
          <p class="soft">{people.join.kept}</p>
          <Join problem={state.join_problem} actions={actions} />
        </>
      )}
      {state.identity && <p class="soft">{words.device(state.identity.device)}</p>}
    </section>
  );
}
