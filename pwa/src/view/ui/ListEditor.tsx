/** A short list of words that grows and shrinks: type and add, tap the cross to take out. */

import type { TargetedSubmitEvent } from "preact";
import { useRef, useState } from "preact/hooks";
import "./field.css";
import { TextField } from "./Field";
import { Button } from "./Button";
import { Icon } from "./Icon";

interface ListEditorProps {
  label: string;
  hint?: string;
  items: readonly { id: string; label: string }[];
  words: {
    add: string;
    /** What stands where nothing is in the list. */
    empty: string;
    /** The name of an item's cross. */
    remove: (label: string) => string;
    /** Spoken after it. */
    added: (label: string) => string;
    removed: (label: string) => string;
  };
  /** What is wrong with a text, and what to do; null where it may be added. */
  check?: (text: string) => string | null;
  onAdd: (text: string) => void;
  onRemove: (id: string) => void;
}

type Item = ListEditorProps["items"][number];

/** What is typed, what is wrong with it, and what is spoken; where the focus goes after each change. */
function useEditing({ items, words, check, onAdd, onRemove }: ListEditorProps) {
  const [text, setText] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
  const [spoken, setSpoken] = useState("");
  const place = useRef<HTMLDivElement>(null);
  const typed = (next: string) => {
    setText(next);
    setProblem(null);
  };
  const add = (event: TargetedSubmitEvent<HTMLFormElement>) => {
    event.preventDefault();
    const label = text.trim();
    if (label === "") return;
    const wrong = check?.(label) ?? null;
    setProblem(wrong);
    if (wrong !== null) return;
    setText("");
    setSpoken(words.added(label));
    onAdd(label);
  };
  const remove = (item: Item) => {
    const at = items.indexOf(item);
    // The one that moves into its place has the focus next, or the one before, or the field.
    const crosses = [...(place.current?.querySelectorAll<HTMLElement>("button[data-cross]") ?? [])];
    const next = crosses[at + 1] ?? crosses[at - 1] ?? place.current?.querySelector<HTMLElement>("input");
    next?.focus();
    setSpoken(words.removed(item.label));
    onRemove(item.id);
  };
  return { place, text, problem, spoken, typed, add, remove };
}

/** Enter adds and stays in the field, for the next one. */
export function ListEditor(props: ListEditorProps) {
  const { label, hint, items, words } = props;
  const { place, text, problem, spoken, typed, add, remove } = useEditing(props);
  return (
    <div class="ui-list-editor" ref={place}>
      <form onSubmit={add}>
        <TextField label={label} hint={hint} problem={problem} value={text} onInput={typed} autocomplete="off" />
        <Button type="submit" icon="add">
          {words.add}
        </Button>
      </form>
      {items.length === 0 ? (
        <p class="ui-field-hint">{words.empty}</p>
      ) : (
        <ul aria-label={label}>
          {items.map((item) => (
            <li key={item.id}>
              <span>{item.label}</span>
              <button type="button" data-cross aria-label={words.remove(item.label)} onClick={() => remove(item)}>
                <Icon name="close" size={20} />
              </button>
            </li>
          ))}
        </ul>
      )}
      <p class="unseen" role="status">
        {spoken}
      </p>
    </div>
  );
}
