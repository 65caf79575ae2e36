/** Everybody of an event that is in force, each with a code for their phone: one tap a person. */

import { useState } from "preact/hooks";
import type { Actions, AppState, Invited } from "../../flow/model";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { guide as words } from "../words/guide";
import { setup as setupWords } from "../words/setup";
import { InvitedShown } from "./Invite";

interface InviteListProps {
  state: AppState;
  actions: Actions;
  event: string;
}

export function InviteList({ state, actions, event }: InviteListProps) {
  const { busy, problem, run } = usePending();
  const [made, setMade] = useState<Invited | null>(null);
  const people = state.setup?.event === event ? state.setup.people : null;
  return (
    <>
      <h1>{words.step.invite}</h1>
      {!people && <p>{words.notInForce}</p>}
      {people && (
        <ul class="stack">
          {people.map(({ person, name }) => (
            <li key={person} class="stack">
              <button
                type="button"
                class="button"
                disabled={busy}
                aria-expanded={made?.person === person}
                onClick={() => run(async () => setMade(await actions.invitePerson(person)))}
              >
                {words.code(name)}
              </button>
              {made?.person === person && <InvitedShown made={made} name={name} />}
            </li>
          ))}
        </ul>
      )}
      <ProblemLine text={problem} />
      {people && <p class="soft">{setupWords.inviteHow}</p>}
    </>
  );
}
