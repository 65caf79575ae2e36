/** Says, on every screen, that a log is being rebuilt, and that somebody who has a phone was invited again. */

import { useState } from "preact/hooks";
import type { RebuildDone, SecondInvite } from "../../kit/api";
import type { Actions, AppState } from "../../flow/model";
import type { Told as Facts } from "../../report/told";
import { Icon } from "../bits/Icon";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { timeOf } from "../labels";
import { FirstRules } from "./FirstRules";
import { told as words } from "../words/told";

interface Props {
  state: AppState;
  actions: Actions;
  told: Facts;
}

export function Told(props: Props) {
  return (
    <>
      {props.told.first_rules && <FirstRules actions={props.actions} />}
      {props.told.rebuild && <Rebuild {...props} />}
      {props.told.second_invites.length > 0 && (
        // One landmark for all of them: each by itself would have the same name.
        <aside aria-label={words.secondTitle}>
          {props.told.second_invites.map((one) => (
            <Second key={one.invite} {...props} invite={one} />
          ))}
        </aside>
      )}
    </>
  );
}

function Rebuild({ state, actions, told }: Props) {
  const [done, setDone] = useState<RebuildDone[] | null>(null);
  const { busy, problem, run } = usePending();
  return (
    <aside class="insecure" aria-label={words.rebuildTitle}>
      <Icon name="attention" />
      <div class="stack">
        <span>{words.rebuild}</span>
        {done && (done.length === 0 ? <span>{words.nothingDone}</span> : <Done done={done} state={state} />)}
        <ProblemLine text={problem} />
        <div class="row">
          {!done && (
            <button
              type="button"
              class="button"
              disabled={busy}
              onClick={() => run(async () => setDone(await actions.rebuildDone()))}
            >
              {words.showDone}
            </button>
          )}
          {told.owner && (
            <button type="button" class="button" disabled={busy} onClick={() => run(() => actions.endRebuild())}>
              {words.end}
            </button>
          )}
        </div>
      </div>
    </aside>
  );
}

function Done({ done, state }: { done: RebuildDone[]; state: AppState }) {
  return (
    <ul>
      {done.map((one) => (
        <li key={`${one.at} ${one.act} ${one.what}`}>
          {words.done(words.act[one.act] ?? one.act, one.what, nameIn(state, one.person), timeIn(state, one.at))}
        </li>
      ))}
    </ul>
  );
}

function Second({ state, actions, told, invite }: Props & { invite: SecondInvite }) {
  const { busy, problem, run } = usePending();
  const mine = state.identity?.person === invite.person && state.identity.device !== invite.device;
  const by = invite.invited_by ? nameIn(state, invite.invited_by) : words.byServer;
  const name = nameIn(state, invite.person);
  return (
    <div class="insecure">
      <Icon name="attention" />
      <div class="stack">
        <span>
          {mine ? words.secondMine(by, timeIn(state, invite.at)) : words.second(by, name, timeIn(state, invite.at))}
        </span>
        <span>{invite.device ? words.joined(invite.device) : words.notJoined}</span>
        <ProblemLine text={problem} />
        {(mine || told.owner) && (
          <button
            type="button"
            class="button"
            disabled={busy}
            onClick={() => run(() => actions.knowInvite(invite.invite))}
          >
            {words.know}
          </button>
        )}
      </div>
    </div>
  );
}

const nameIn = ({ setup }: AppState, person: string) =>
  setup?.people.find((one) => one.person === person)?.name ?? person;
const timeIn = ({ setup }: AppState, at: string) => (setup ? timeOf(setup, at) : at);
