/** A new event from the last one: its name and its first day. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { SetupDraft } from "../../flow/model";
import type { ScreenProps } from "../screen";
import { firstBook } from "../../setup/first_book";
import { nextStep } from "../../setup/guide";
import { eventId, nextEvent, type NextEvent as NextEventWish } from "../../setup/next_event";
import { eventAfter } from "../../setup/pattern";
import { OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { guide } from "../words/guide";
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
  const [pattern, setPattern] = useState<"empty" | "sample">("empty");
  const [wrong, setWrong] = useState<string | null>(null);
  const { busy, problem, run } = usePending();
  const first = useRef<HTMLInputElement>(null);
  useEffect(() => {
    // After the arrival's own focus on the screen: the one thing to do here is to type the name.
    const timer = setTimeout(() => first.current?.focus());
    return () => clearTimeout(timer);
  }, []);
  const event = typed ?? eventId(name, day);
  const firstOf = async (wish: NextEventWish) =>
    pattern === "sample"
      ? eventAfter(await actions.sampleFiles(), { ...wish, stages: "kept" }, state.identity)
      : firstBook(wish, state.identity);
  const make = () => {
    const taken = [...state.events, ...state.drafts].some((one) => one.event === event.trim());
    const fault = !name.trim()
      ? words.needName
      : (last || pattern === "sample") && !day
        ? words.needDay
        : !event.trim() || event.includes("/") || taken
          ? words.needId
          : null;
    setWrong(fault);
    if (fault) return;
    const wish = { event: event.trim(), name: name.trim(), first_day: day, stages };
    run(async () => {
      const draft: SetupDraft = {
        event: wish.event,
        version: "",
        of: last?.event ?? null,
        base: last?.baseFiles ?? {},
        book: last ? nextEvent(last.book, wish) : await firstOf(wish),
        saved_at: "",
      };
      await actions.keepSetupDraft(draft);
      actions.go(addressOf(wish.event, last ? "changes" : `guide/${nextStep(draft.book, false)}`));
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
      {!last && (
        <OneOf
          legend={guide.pattern}
          value={pattern}
          options={(["empty", "sample"] as const).map((value) => ({ value, label: guide.patterns[value] ?? value }))}
          onPick={setPattern}
        />
      )}
      <ProblemLine text={wrong ?? problem} />
      <button type="submit" class="button main" disabled={busy}>
        {words.make}
      </button>
    </form>
  );
}
