/** Agreements one by one: a form for each car, and the way to the table that they are. */

import { useEffect, useState } from "preact/hooks";
import type { Fault } from "../../setup/faults";
import { isBlank, nextId, withoutRow } from "../../setup/table";
import { agreements as words } from "../words/agreements";
import { setup as setupWords } from "../words/setup";
import { AgreementForm } from "./AgreementForm";
import { specOf } from "../../setup/specs";
import { addressOf } from "./address";
import { KeptLine } from "./DraftLines";
import { FaultList } from "./FaultList";
import { Look } from "./Look";
import { Suggestions } from "./Suggestions";
import { cellId, picked, useFocus } from "./useFocus";
import type { Editing } from "./useSetup";
import "./agreements.css";

const TABLE = "agreements";

export function Agreements({ editing }: { editing: Editing }) {
  const table = editing.book.tables[TABLE];
  const rows = (table?.rows ?? []).filter((row) => !isBlank(row));
  const [open, setOpen] = useState<number | null>(rows.length === 1 ? (rows[0]?.id ?? null) : null);
  const focus = useFocus();
  const spec = specOf(TABLE);
  const faults = editing.faults.filter((one) => one.table === TABLE);
  const pick = ({ id, column }: Fault) => {
    if (id === null) return;
    setOpen(id);
    focus(cellId(id, column || "agreement"));
  };
  useEffect(() => {
    const [, id, column] = /^cell-(\d+)-(.*)$/.exec(picked.cell ?? "") ?? [];
    picked.cell = null;
    if (id === undefined) return;
    setOpen(Number(id));
    focus(cellId(Number(id), column || "agreement"));
  }, []);
  const cars = (editing.book.tables.cars?.rows ?? []).map((row) => row.cells.car ?? "").filter(Boolean);
  const begin = (car: string) => {
    let id = 0;
    editing.edit(TABLE, (now) => {
      id = nextId(now);
      return {
        ...now,
        rows: [...now.rows.filter((row) => !isBlank(row)), { id, cells: { agreement: `hire-${car}`, car } }],
      };
    });
    setOpen(id);
    focus(cellId(id, "customer"));
  };
  return (
    <div class="stack">
      <a class="button quiet back" href={addressOf(editing.event)}>
        {setupWords.back}
      </a>
      <h1>{setupWords.table[TABLE]}</h1>
      <p class="soft">{words.how}</p>
      <FaultList editing={editing} faults={faults} onPick={pick} />
      {spec && <Suggestions book={editing.book} spec={spec} />}
      {rows.map((row) => (
        <section key={row.id} class="sheet" aria-labelledby={`agreement-${row.id}`}>
          <div class="row">
            <h2 id={`agreement-${row.id}`}>{words.head(row.cells.customer ?? "", row.cells.car ?? "")}</h2>
            <button
              type="button"
              class="button"
              aria-expanded={open === row.id}
              onClick={() => setOpen(open === row.id ? null : row.id)}
            >
              {open === row.id ? words.close : words.open}
            </button>
          </div>
          {open === row.id && (
            <>
              <AgreementForm editing={editing} row={row} faults={faults} />
              <button
                type="button"
                class="button quiet"
                onClick={() => editing.edit(TABLE, (now) => withoutRow(now, row.id))}
              >
                {words.takeOut}
              </button>
            </>
          )}
        </section>
      ))}
      {cars
        .filter((car) => !rows.some((row) => row.cells.car === car))
        .map((car) => (
          <button key={car} type="button" class="button" onClick={() => begin(car)}>
            {words.begin(car)}
          </button>
        ))}
      <div class="row">
        <Look editing={editing} />
        <KeptLine editing={editing} />
      </div>
      <a class="button quiet" href={addressOf(editing.event, `${TABLE}/table`)}>
        {words.asTable}
      </a>
    </div>
  );
}
