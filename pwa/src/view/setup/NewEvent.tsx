/** A new event from the last one: its name and its first day. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { SetupDraft } from "../../flow/model";
import type { ScreenProps } from "../screen";
import { firstBook } from "../../setup/first_book";
import { eventId, nextEvent } from "../../setup/next_event";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { setup as words } from "../words/setup";
import { addressOf } from "./address";
import type { Editing } from "./useSetup";

interface NewEventProps extends ScreenProps {
  /** The set-up that it is made from, or null for a first event. */
  last: Editing | null;
}

export function NewEvent({ state, actions, last }: NewEventProps) {
  const [name, setName] = useState("");
  const [typed, setTyped] = useState<string | null>(null);
  const [day, setDay] = useState("");
  const [stages, setStages] = useState<"kept" | "emptied">("emptied");
  const [wrong, setWrong] = useState<string | null>(null);
  const { busy, problem, run } = usePending();
  const first = useRef<HTMLInputElement>(null);
  useEffect(() => {
    // After the arrival's own focus on the screen: the one thing to do here is to type the name.
    const timer = setTimeout(() => first.current?.focus());
    return () => clearTimeout(timer);
  }, []);
  const event = typed ?? eventId(name, day);
  const make = () => {
    const taken = [...state.events, ...state.drafts].some((one) => one.event === event.trim());
    const fault = !name.trim()
      ? words.needName
      : last && !day
        ? words.needDay
        : !event.trim() || event.includes("/") || taken
          ? words.needId
          : null;
    setWrong(fault);
    if (fault) return;
    const wish = { event: event.trim(), name: name.trim(), first_day: day, stages };
    const book = last ? nextEvent(last.book, wish) : firstBook(wish, state.identity);
    const draft: SetupDraft = {
      event: wish.event,
      version: "",
      of: last?.event ?? null,
      base: last?.baseFiles ?? {},
      book,
      saved_at: "",
    };
    run(async () => {
      await actions.keepSetupDraft(draft);
      actions.go(addressOf(wish.event, "changes"));
    });
  };
  return (
    <form
      class="stack"
      onSubmit={(submitted) => {
        submitted.preventDefault();
        make();
      }}
    >
      <a class="button quiet back" href={last ? addressOf(last.event) : "#/setup"}>
        {words.back}
      </a>
      <h1>{words.newTitle}</h1>
      <p>{last ? words.newFrom(last.name) : words.newFromNothing}</p>
      <label>
        <span class="label">{words.name}</span>
        <input
          type="text"
          value={name}
          autocomplete="off"
          ref={first}
          onInput={(change) => setName(change.currentTarget.value)}
        />
      </label>
      <label>
        <span class="label">{words.day}</span>
        <input type="date" class="day" value={day} onInput={(change) => setDay(change.currentTarget.value)} />
      </label>
      <label>
        <span class="label">{words.id}</span>
        <input
          type="text"
          value={event}
          autocomplete="off"
          onInput={(change) => setTyped(change.currentTarget.value)}
        />
      </label>
      {last && (
        <OneOf
          legend={words.stagesKept}
          value={stages}
          options={(["emptied", "kept"] as const).map((value) => ({ value, label: words.stages[value] ?? value }))}
          onPick={setStages}
        />
      )}
      <ProblemLine text={wrong ?? problem} />
      <button type="submit" class="button main" disabled={busy}>
        {words.make}
      </button>
    </form>
  );
}
