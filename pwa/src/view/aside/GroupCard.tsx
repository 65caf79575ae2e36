/** Much that one device brought: told in one place, and decided on at once. */

import { useState } from "preact/hooks";
import type { Actions, AppState, AsideGroupItem } from "../../flow/model";
import { ProblemLine } from "../bits/Problem";
import { ReasonField } from "../bits/ReasonField";
import { usePending } from "../bits/usePending";
import { aside as words } from "../words/aside";
import { timeShown } from "./reading";

interface GroupCardProps {
  group: AsideGroupItem;
  state: AppState;
  actions: Actions;
  onDecided: () => Promise<unknown>;
}

export function GroupCard({ group, state: { setup }, actions, onDecided }: GroupCardProps) {
  const [reason, setReason] = useState("");
  const { busy, problem, run } = usePending();
  const person = group.brought_by_person;
  const name = person && (setup?.people.find((one) => one.person === person)?.name ?? person);
  const who = group.brought_by === null ? words.broughtByFile : words.onDevice(name ?? "?", group.brought_by);
  const decide = (block: boolean) =>
    run(
      async () => {
        await actions.leaveOutGroup(group, reason.trim(), block);
        await onDecided();
      },
      reason.trim() ? null : words.needReason,
    );
  return (
    <article class="sheet">
      <h2>{words.groupOf(group.waiting, who)}</h2>
      <p>{words.between(timeShown(setup, group.first_at), timeShown(setup, group.last_at))}</p>
      <ul>
        {Object.entries(group.codes).map(([code, count]) => (
          <li key={code}>{words.times(count, words.code[code] ?? code)}</li>
        ))}
      </ul>
      <p class="soft">{words.groupMeans}</p>
      <ReasonField legend={words.whyAll} other={words.own} usual={words.reasons} reason={reason} onChange={setReason} />
      <ProblemLine text={problem} />
      <div class="row even">
        <button type="button" class="button" disabled={busy} onClick={() => decide(false)}>
          {words.discardAll(group.waiting)}
        </button>
        {group.brought_by !== null && (
          <button type="button" class="button" disabled={busy} onClick={() => decide(true)}>
            {words.blockAll}
          </button>
        )}
      </div>
    </article>
  );
}
