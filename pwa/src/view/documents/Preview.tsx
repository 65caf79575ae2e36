/** What a paper would look like now: its pages as pictures, or a table's first rows; words where the server is away. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import type { Preview as Seen } from "../../report/preview";
import { Button } from "../ui/Button";
import { EmptyState } from "../ui/Card";
import { type Column, Table } from "../ui/Table";
import { common } from "../words/common";
import { documents as words } from "../words/documents";

interface PreviewProps extends Pick<Actions, "previewDocument"> {
  name: string;
  /** Where a page is asked for. */
  address: (page: number) => string;
  /** `a4` or `letter`: the place that is kept for a page. */
  format: string;
  /** When the server was last heard: what it did not answer is asked for again then. */
  heard: string | null;
  /** How many entries this phone holds: more of them may make it another paper. */
  held: number;
}

/** What is shown, and of which address and which entries it is. */
interface Shown {
  of: string;
  held: number;
  seen: Seen;
}

export function Preview({ name, address, format, heard, held, previewDocument }: PreviewProps) {
  const [page, setPage] = useState(1);
  const [asked, setAsked] = useState(0);
  const [shown, setShown] = useState<Shown | null>(null);
  const wanted = address(page);
  const isAway = shown?.seen.kind === "unreachable";
  usePicture(shown);
  useEffect(() => {
    let here = true;
    const known = shown?.of === wanted && shown.seen.kind === "page" ? shown.seen.tag : null;
    previewDocument(wanted, known).then(
      (seen) => {
        if (!here) return discard(seen);
        setShown((before) => ({ of: wanted, held, seen: seen.kind === "same" && before ? before.seen : seen }));
      },
      (error: unknown) => here && setShown({ of: wanted, held, seen: { kind: "refused", why: String(error) } }),
    );
    return () => {
      here = false;
    };
  }, [wanted, asked]);
  const again = () => setAsked((before) => before + 1);
  useEffect(() => {
    if (isAway) again();
  }, [heard]);
  return (
    <div class="preview">
      {shown?.of === wanted && shown.held !== held && shown.seen.kind !== "unreachable" && (
        <p class="row" role="status">
          {words.moreLogged} <Button onClick={again}>{words.showAgain}</Button>
        </p>
      )}
      <Content {...{ shown, wanted, name, format, page }} onPage={setPage} onAgain={again} />
    </div>
  );
}

interface ContentProps {
  shown: Shown | null;
  wanted: string;
  name: string;
  format: string;
  page: number;
  onPage: (page: number) => void;
  onAgain: () => void;
}

function Content({ shown, wanted, name, format, page, onPage, onAgain }: ContentProps) {
  const seen = shown?.seen;
  if (seen?.kind === "unreachable") {
    return (
      <EmptyState icon="offline" title={words.noSignal} action={<Button onClick={onAgain}>{common.tryAgain}</Button>}>
        {words.noSignalHow}
      </EmptyState>
    );
  }
  if (seen?.kind === "refused") return <EmptyState icon="documents" title={words.noneYet} children={seen.why} />;
  if (seen?.kind === "rows") return <FirstRows name={name} rows={seen.rows} of={seen.of} />;
  const picture = seen?.kind === "page" ? seen : null;
  return (
    <>
      {picture && picture.pages > 1 && <Turn page={page} pages={picture.pages} onPage={onPage} />}
      <div class={`preview-page is-${format}`} aria-busy={shown?.of !== wanted || undefined}>
        {picture ? (
          <img src={picture.url} alt={words.pageAlt(name, page, picture.pages)} />
        ) : (
          <p role="status">{words.fetching}</p>
        )}
      </div>
    </>
  );
}

function Turn({ page, pages, onPage }: { page: number; pages: number; onPage: (page: number) => void }) {
  const to = (by: number) => () => onPage(Math.min(pages, Math.max(1, page + by)));
  return (
    <div class="preview-turn">
      <Button icon="back" onClick={to(-1)} {...(page === 1 ? { unavailable: "preview-page" } : {})}>
        {words.before}
      </Button>
      <p id="preview-page" role="status">
        {words.page(page, pages)}
      </p>
      <Button icon="forward" onClick={to(1)} {...(page === pages ? { unavailable: "preview-page" } : {})}>
        {words.after}
      </Button>
    </div>
  );
}

const NUMBER = /^-?\d[\d.,\s]*$/;

function FirstRows({ name, rows: [heads = [], ...rows], of }: { name: string; rows: string[][]; of: number }) {
  const columns = heads.map((label, at): Column<string[]> => {
    const cells = rows.map((row) => row[at] ?? "").filter(Boolean);
    return {
      id: String(at),
      label,
      cell: (row) => row[at] ?? "",
      number: cells.length > 0 && cells.every((cell) => NUMBER.test(cell)),
    };
  });
  return (
    <Table
      caption={`${name}: ${words.firstRows(rows.length, of)}`}
      columns={columns}
      rows={rows}
      keyOf={(row) => row.join("\t")}
      empty={words.noRows}
    />
  );
}

/** Lets a picture go that nothing shows any more. */
function usePicture(shown: Shown | null) {
  const url = shown?.seen.kind === "page" ? shown.seen.url : null;
  const last = useRef<string | null>(null);
  useEffect(() => {
    last.current = url;
    return () => {
      if (url !== null) URL.revokeObjectURL(url);
    };
  }, [url]);
}

function discard(seen: Seen) {
  if (seen.kind === "page") URL.revokeObjectURL(seen.url);
}
