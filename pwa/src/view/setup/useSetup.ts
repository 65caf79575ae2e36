/** The set-up that is being edited: what is in force, the draft over it, and what the server said of the draft. */

import { useMemo, useRef, useState } from "preact/hooks";
import type { SetupFiles } from "../../kit/api";
import type { Actions, AppState, SetupChecked, SetupDraft } from "../../flow/model";
import { brought } from "../../setup/changes";
import { type Fault, located, type ServerFault, standing, unwritable } from "../../setup/faults";
import { bookOf, emptyBook, type Files, sentOf } from "../../setup/files";
import { specOf } from "../../setup/specs";
import { type Book, formRow, type Table, tableOf } from "../../setup/table";
import { setup as words } from "../words/setup";

/** What the server said; `book`: of which draft. */
interface Checked {
  faults: Fault[];
  warnings: Fault[];
  difference: SetupChecked["difference"];
  book: Book;
}

export interface Editing {
  event: string;
  name: string;
  isNew: boolean;
  draft: SetupDraft | null;
  base: Book;
  baseFiles: Files;
  /** What the event keeps of release 0.1; null where the server does not say so, and under a draft of an old version. */
  earlier: SetupFiles["earlier"] | null;
  book: Book;
  checked: Checked | null;
  /** Faults of the last look that still stand. */
  faults: Fault[];
  /** Another version came in force since the draft was begun. */
  isOld: boolean;
  /** Why the draft could not be kept, or null; whether it is being kept. */
  trouble: string | null;
  keeping: boolean;
  change(book: Book): void;
  /** Change a table as it is by now; returns what it was. */
  edit(name: string, how: (table: Table) => Table): Table;
  check(): Promise<Checked>;
  put(): Promise<string>;
  bring(): void;
  drop(): Promise<void>;
}

const NO_FILES: Files = {};

/** A draft as this page has it, which is newer than what the store was read with. */
interface Local {
  event: string;
  draft: SetupDraft;
}

/** Keep a draft with each change; `keeping`: whether that is under way, `trouble`: why the last one was not kept. */
function useKeeping(actions: Actions) {
  const [local, setLocal] = useState<Local | null>(null);
  const [under_way, setUnderWay] = useState(0);
  const [trouble, setTrouble] = useState<string | null>(null);
  const keep = (event: string, draft: SetupDraft) => {
    setLocal({ event, draft });
    setUnderWay((n) => n + 1);
    actions
      .keepSetupDraft(draft)
      .then(
        () => setTrouble(null),
        (error: unknown) => setTrouble(words.notKept(error instanceof Error ? error.message : String(error))),
      )
      .finally(() => setUnderWay((n) => n - 1));
  };
  return { local, keeping: under_way > 0, trouble, keep, forget: () => setLocal(null) };
}

/** What the draft is over: the files that it was begun with, else those in force here. */
function useBase(event: string, source: SetupDraft | null, held: SetupFiles | null) {
  const files = source ? source.base : (held?.files ?? NO_FILES);
  const version = source ? source.version : (held?.version ?? "");
  const book = useMemo(() => (Object.keys(files).length ? bookOf(files) : emptyBook()), [event, version]);
  return { files, version, book };
}

/** Return the set-up of an event, or null where this phone holds neither its files nor a draft of it. */
export function useSetup(state: AppState, actions: Actions, event: string): Editing | null {
  const held = state.files.find((one) => one.event === event)?.files ?? null;
  const draft = state.drafts.find((one) => one.event === event) ?? null;
  const kept = useKeeping(actions);
  const [checked, setChecked] = useState<Checked | null>(null);
  const here = kept.local?.event === event ? kept.local : null;
  const source = here?.draft ?? draft;
  const base = useBase(event, source, held);
  // The draft as it was read when this page first saw it: each refresh reads it again, and edits here are newer.
  const first = useRef<{ event: string; book: Book } | null>(null);
  // A cell that is left and a row that is added in one breath come before the next drawing.
  const latest = useRef<Book>(base.book);
  if (draft && first.current?.event !== event) first.current = { event, book: draft.book };
  if (!draft && !here) first.current = null;
  if (!held && !draft && !here) return null;

  const book = here?.draft.book ?? first.current?.book ?? base.book;
  latest.current = book;
  const keep = (next: SetupDraft) => {
    latest.current = next.book;
    kept.keep(event, next);
  };
  const draftOf = (next: Book): SetupDraft => ({
    event,
    version: base.version,
    of: source?.of ?? null,
    base: base.files,
    saved_at: source?.saved_at ?? "",
    book: next,
  });
  const change = (next: Book) => keep(draftOf(next));
  const forget = () => {
    kept.forget();
    setChecked(null);
    first.current = null;
  };
  const isNew = source?.of !== undefined && source?.version === "";
  return {
    event,
    name: formRow(book.tables.event).cells.name || event,
    isNew,
    draft: source,
    base: base.book,
    baseFiles: base.files,
    earlier: held?.version === base.version ? (held?.earlier ?? null) : null,
    book,
    checked,
    faults: checked ? standing(checked.faults, book) : [],
    isOld: source !== null && !isNew && held !== null && held.version !== source.version,
    trouble: kept.trouble,
    keeping: kept.keeping,
    change,
    edit: (name, how) => edited(latest.current, name, how, change),
    ...withServer({ actions, event, isNew, book, base, of: source?.of ?? null, forget, setChecked }),
    bring() {
      if (!held) return;
      const next = brought(base.book, book, bookOf(held.files));
      setChecked(null);
      keep({ ...draftOf(next), version: held.version ?? "", base: held.files });
    },
    async drop() {
      await actions.dropSetupDraft(event);
      forget();
    },
  };
}

/** Change a table of a book as it is by now; returns what the table was. */
function edited(now: Book, name: string, how: (table: Table) => Table, change: (book: Book) => void): Table {
  const before = now.tables[name] ?? tableOf(specOf(name)?.columns.map((one) => one.column) ?? [], []);
  const after = how(before);
  if (after !== before) change({ ...now, tables: { ...now.tables, [name]: after } });
  return before;
}

interface Asking {
  actions: Actions;
  event: string;
  isNew: boolean;
  book: Book;
  base: { files: Files; version: string; book: Book };
  of: string | null;
  forget: () => void;
  setChecked: (checked: Checked) => void;
}

/** What the server does with the draft: check it, put it in force. */
function withServer({ actions, event, isNew, book, base, of, forget, setChecked }: Asking) {
  const target = isNew ? (formRow(book.tables.event).cells.event ?? "").trim() || event : event;
  const asked = async () => {
    const { sent, places } = sentOf(book, base);
    const answer = await actions.checkSetup(target, sent, of, base.version);
    const at = (some: ServerFault[]) => located(some, book, places);
    return { faults: at(answer.faults), warnings: at(answer.warnings ?? []), difference: answer.difference };
  };
  return {
    async check(): Promise<Checked> {
      const own = unwritable(book);
      const answer = own.length > 0 ? { faults: own, warnings: [], difference: [] } : await asked();
      const made = { ...answer, book };
      setChecked(made);
      return made;
    },
    async put(): Promise<string> {
      await actions.putSetup(target, sentOf(book, base).sent, base.version, event);
      forget();
      return target;
    },
  };
}
