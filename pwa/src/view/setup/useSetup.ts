/** The set-up that is being edited: what is in force, the draft over it, and what the server said of the draft. */

import { useMemo, useRef, useState } from "preact/hooks";
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

/** Return the set-up of an event, or null where this phone holds neither its files nor a draft of it. */
export function useSetup(state: AppState, actions: Actions, event: string): Editing | null {
  const held = state.files.find((one) => one.event === event)?.files ?? null;
  const draft = state.drafts.find((one) => one.event === event) ?? null;
  const [local, setLocal] = useState<{ event: string; book: Book; draft: SetupDraft } | null>(null);
  const [checked, setChecked] = useState<Checked | null>(null);
  const [keeping, setKeeping] = useState(0);
  const [trouble, setTrouble] = useState<string | null>(null);
  const here = local?.event === event ? local : null;
  const source = here?.draft ?? draft;
  const baseFiles = source ? source.base : (held?.files ?? NO_FILES);
  const version = source ? source.version : (held?.version ?? "");
  const base = useMemo(() => (Object.keys(baseFiles).length ? bookOf(baseFiles) : emptyBook()), [event, version]);
  // The draft as it was read when this page first saw it: each refresh reads it anew, and edits here are newer.
  const first = useRef<{ event: string; book: Book } | null>(null);
  // A cell that is left and a row that is added in one breath come before the next drawing.
  const latest = useRef<Book>(base);
  if (draft && first.current?.event !== event) first.current = { event, book: draft.book };
  if (!draft && !here) first.current = null;
  if (!held && !draft && !here) return null;

  const book = here?.book ?? first.current?.book ?? base;
  latest.current = book;
  const isNew = source?.of !== undefined && source?.version === "";
  const keep = (next: SetupDraft) => {
    latest.current = next.book;
    setLocal({ event, book: next.book, draft: next });
    setKeeping((n) => n + 1);
    actions
      .keepSetupDraft(next)
      .then(
        () => setTrouble(null),
        (error: unknown) => setTrouble(words.notKept(error instanceof Error ? error.message : String(error))),
      )
      .finally(() => setKeeping((n) => n - 1));
  };
  const draftOf = (next: Book): SetupDraft => ({
    event,
    version,
    of: source?.of ?? null,
    base: baseFiles,
    saved_at: source?.saved_at ?? "",
    book: next,
  });
  const change = (next: Book) => keep(draftOf(next));
  const from = { files: baseFiles, book: base };
  const target = isNew ? (formRow(book.tables.event).cells.event ?? "").trim() || event : event;

  const check = async (): Promise<Checked> => {
    const own = unwritable(book);
    const answer = own.length > 0 ? { faults: own, warnings: [], difference: [] } : await asked();
    const made = { ...answer, book };
    setChecked(made);
    return made;
  };
  const asked = async () => {
    const { sent, places } = sentOf(book, from);
    const answer = await actions.checkSetup(target, sent, source?.of ?? null);
    const at = (some: ServerFault[]) => located(some, book, places);
    return { faults: at(answer.faults), warnings: at(answer.warnings ?? []), difference: answer.difference };
  };
  const forget = () => {
    setLocal(null);
    setChecked(null);
    first.current = null;
  };
  return {
    event,
    name: formRow(book.tables.event).cells.name || event,
    isNew,
    draft: source,
    base,
    baseFiles,
    book,
    checked,
    faults: checked ? standing(checked.faults, book) : [],
    isOld: source !== null && !isNew && held !== null && held.version !== source.version,
    trouble,
    keeping: keeping > 0,
    change,
    edit(name, how) {
      const now = latest.current;
      const before = now.tables[name] ?? tableOf(specOf(name)?.columns.map((one) => one.column) ?? [], []);
      const after = how(before);
      if (after !== before) change({ ...now, tables: { ...now.tables, [name]: after } });
      return before;
    },
    check,
    async put() {
      await actions.putSetup(target, sentOf(book, from).sent, version, event);
      forget();
      return target;
    },
    bring() {
      if (!held) return;
      const next = brought(base, book, bookOf(held.files));
      setChecked(null);
      keep({ ...draftOf(next), version: held.version ?? "", base: held.files });
    },
    async drop() {
      await actions.dropSetupDraft(event);
      forget();
    },
  };
}
