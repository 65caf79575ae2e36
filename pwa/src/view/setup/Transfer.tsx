/** Files in and out of a draft: one table, or all of them. */

import { useState } from "preact/hooks";
import { csvFile, folderFile, workbookFile } from "../../setup/downloads";
import type { Spec } from "../../setup/specs";
import type { Book, Table } from "../../setup/table";
import { BadUpload, takeFiles } from "../../setup/uploads";
import { UserError } from "../../kit/user_error";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { ENGLISH_TITLES, setup as words } from "../words/setup";
import type { Editing } from "./useSetup";

/** How long a browser may take to begin saving a file. */
const SAVING_MS = 60_000;

function save(file: File): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), SAVING_MS);
}

interface UploadProps {
  label: string;
  accept: string;
  book: Book;
  table: string | null;
  onTaken: (book: Book) => void;
}

function Upload({ label, accept, book, table, onTaken }: UploadProps) {
  const { busy, problem, run } = usePending();
  const [told, setTold] = useState<string[]>([]);
  const take = (input: HTMLInputElement) => {
    const files = [...(input.files ?? [])];
    setTold([]);
    run(async () => {
      const { french } = await import("../words/fr");
      const titles = [ENGLISH_TITLES, french.setup.table];
      const taken = await takeFiles(book, files, table, titles).catch((error: unknown) => {
        throw error instanceof BadUpload ? new UserError(error.message) : error;
      });
      onTaken(taken.book);
      const names = taken.tables.map((name) => words.table[name] ?? name);
      setTold([
        words.taken(names),
        ...(taken.left_out.length > 0 ? [words.leftOut(taken.left_out)] : []),
        ...(taken.guessed.length > 0 ? [words.guessed(taken.guessed)] : []),
      ]);
    });
    input.value = "";
  };
  return (
    <>
      <label class="button file">
        <span>{busy ? words.uploading : label}</span>
        <input
          type="file"
          accept={accept}
          multiple={table === null}
          disabled={busy}
          onChange={(event) => take(event.currentTarget)}
        />
      </label>
      <ProblemLine text={problem} />
      <div role="status" class="problem">
        {told.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
    </>
  );
}

const SHEETS = ".csv,.xlsx,text/csv";

interface TableFilesProps {
  editing: Editing;
  spec: Spec;
  table: Table;
  onTable: (table: Table) => void;
}

/** Files of one table. */
export function TableFiles({ editing, spec, table, onTable }: TableFilesProps) {
  const name = words.table[spec.table] ?? spec.table;
  return (
    <section class="sheet" aria-labelledby="files-title">
      <h2 id="files-title">{words.files}</h2>
      <Upload
        label={words.uploadHere(name)}
        accept={SHEETS}
        book={editing.book}
        table={spec.table}
        onTaken={(book) => {
          const taken = book.tables[spec.table];
          if (taken) onTable(taken);
        }}
      />
      <button type="button" class="button" onClick={() => save(csvFile(spec, table))}>
        {words.csv}
      </button>
    </section>
  );
}

/** Any of the event's files, or all of them. */
export function UploadAll({ editing }: { editing: Editing }) {
  return (
    <Upload
      label={words.upload}
      accept={`${SHEETS},.toml,.zip`}
      book={editing.book}
      table={null}
      onTaken={(taken) => editing.change(taken)}
    />
  );
}

/** Files of the whole set-up. */
export function AllFiles({ editing }: { editing: Editing }) {
  const { busy, problem, run } = usePending();
  const { book, event } = editing;
  return (
    <section class="sheet" aria-labelledby="files-title">
      <h2 id="files-title">{words.files}</h2>
      <p class="soft">{words.filesHow}</p>
      <UploadAll editing={editing} />
      <div class="row">
        <button
          type="button"
          class="button"
          disabled={busy}
          onClick={() => run(async () => save(await workbookFile(book, event)))}
        >
          {words.xlsx}
        </button>
        <button type="button" class="button" onClick={() => save(folderFile(book, event))}>
          {words.zip}
        </button>
      </div>
      <ProblemLine text={problem} />
    </section>
  );
}
