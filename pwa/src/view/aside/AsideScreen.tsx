/** What the server set aside, for a manager: why, who brought it, what it says; taken after all or left out. */

import { useEffect, useState } from "preact/hooks";
import type { AsideGroupItem, AsideItem } from "../../flow/model";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { ScreenProps } from "../screen";
import { aside as words } from "../words/aside";
import { AsideCard } from "./AsideCard";
import { GroupCard } from "./GroupCard";
import "./aside.css";

export function AsideScreen({ state, actions }: ScreenProps) {
  const [items, setItems] = useState<AsideItem[] | null>(null);
  const { busy, problem, run } = usePending();
  const isManager = state.identity?.roles.includes("manager") ?? false;
  const [groups, setGroups] = useState<AsideGroupItem[]>([]);
  const load = () =>
    run(async () => {
      setGroups(await actions.asideGroups());
      setItems(await actions.asideHere());
    });
  useEffect(() => {
    if (isManager) void load();
  }, [isManager]);
  const waiting = items?.filter((one) => one.reviewed_at === null) ?? [];
  const isGrouped = (one: AsideItem) => groups.some((group) => group.brought_by === one.brought_by);
  const single = waiting.filter((one) => !isGrouped(one));
  const count = single.length + groups.reduce((sum, group) => sum + group.waiting, 0);
  const done = items?.filter((one) => one.reviewed_at !== null) ?? [];
  const cards = (some: AsideItem[]) =>
    some.map((item) => <AsideCard key={item.sha256} item={item} state={state} actions={actions} onDecided={load} />);
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      {!isManager && <p>{words.notFor}</p>}
      {isManager && (
        <>
          <p>{words.what}</p>
          <p class="soft">{words.online}</p>
          <ProblemLine text={problem} />
          <p class="strong" role="status">
            {items === null ? "" : count === 0 ? words.none : words.waiting(count)}
          </p>
          {groups.map((group) => (
            <div class="stack" key={group.brought_by}>
              <GroupCard group={group} state={state} actions={actions} onDecided={load} />
              <details>
                <summary>{words.some}</summary>
                <div class="stack">{cards(waiting.filter((one) => one.brought_by === group.brought_by))}</div>
              </details>
            </div>
          ))}
          {cards(single)}
          <button type="button" class="button" disabled={busy} onClick={load}>
            {busy ? words.loading : words.load}
          </button>
          {done.length > 0 && (
            <details>
              <summary>{words.done(done.length)}</summary>
              <div class="stack">{cards(done)}</div>
            </details>
          )}
        </>
      )}
    </div>
  );
}
