/** What lies in the car: one line a thing, aboard or missing; the list is changed on the walk. */

import { useState } from "preact/hooks";
import type { WalkDraft } from "../../report/walk_draft";
import { LONGEST_ITEM, LONGEST_NOTE, MOST_KIT } from "../../report/walk_list";
import { OneOf } from "../bits/Chips";
import { walk as words } from "../words/walk";
import type { AtStep } from "./atStep";

export function KitStep({ draft, change }: AtStep) {
  const say = (item: string, aboard: boolean) =>
    change({ ...draft, kit: draft.kit.map((one) => (one.item === item ? { item, aboard } : one)) }, item);
  const rest = () =>
    change(
      { ...draft, kit: draft.kit.map(({ item, aboard }) => ({ item, aboard: aboard ?? true })) },
      words.allAboard.toLowerCase(),
    );
  const remove = (item: string) => change({ ...draft, kit: draft.kit.filter((one) => one.item !== item) }, item);
  return (
    <>
      <button type="button" class="button wide" onClick={rest}>
        {words.allAboard}
      </button>
      <ul class="stack">
        {draft.kit.map(({ item, aboard }) => (
          <li key={item} class="walk-kit">
            <OneOf
              legend={item}
              value={aboard === null ? null : aboard ? "aboard" : "missing"}
              options={[
                { value: "aboard", label: words.aboard },
                { value: "missing", label: words.missing },
              ]}
              onPick={(value) => say(item, value === "aboard")}
            />
            <button type="button" class="button quiet" aria-label={words.kitRemove(item)} onClick={() => remove(item)}>
              ×
            </button>
          </li>
        ))}
      </ul>
      <Add draft={draft} change={change} />
      {draft.walk === "return" && (
        <OneOf
          legend={words.cleaning}
          value={draft.needs_cleaning == null ? null : draft.needs_cleaning ? "yes" : "no"}
          options={[
            { value: "yes", label: words.yes },
            { value: "no", label: words.no },
          ]}
          onPick={(value) => change({ ...draft, needs_cleaning: value === "yes" }, words.cleaning)}
        />
      )}
      <label>
        <span class="label">{words.note}</span>
        <textarea
          value={draft.note}
          maxLength={LONGEST_NOTE}
          onChange={(event) => change({ ...draft, note: event.currentTarget.value }, words.note.toLowerCase())}
        />
      </label>
    </>
  );
}

function Add({ draft, change }: Pick<AtStep, "draft" | "change">) {
  const [item, setItem] = useState("");
  const said = item.trim();
  const isFull = draft.kit.length >= MOST_KIT;
  const add = (event: Event) => {
    event.preventDefault();
    if (said === "" || isFull || draft.kit.some((one) => one.item === said)) return;
    change({ ...draft, kit: [...draft.kit, { item: said, aboard: true }] } satisfies WalkDraft, said);
    setItem("");
  };
  return (
    <form class="stack" onSubmit={add}>
      <label>
        <span class="label">{words.kitAdd}</span>
        <input
          type="text"
          value={item}
          maxLength={LONGEST_ITEM}
          onInput={(event) => setItem(event.currentTarget.value)}
        />
      </label>
      {isFull && <p class="soft">{words.kitFull}</p>}
      <button type="submit" class="button" aria-disabled={said === "" || isFull}>
        {words.kitAddDo}
      </button>
    </form>
  );
}
