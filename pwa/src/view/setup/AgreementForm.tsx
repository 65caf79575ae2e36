/** One agreement as a form: each term with what it says, and beside it what a hit would cost the customer. */

import { faultAt, type Fault } from "../../setup/faults";
import { tidied } from "../../setup/paste";
import { columnOf, specOf } from "../../setup/specs";
import { formRow, type Row, withCell } from "../../setup/table";
import { money } from "../../kit/money";
import { AnyOf } from "../bits/Chips";
import { agreements as words } from "../words/agreements";
import { AgreementExample } from "./AgreementExample";
import { Field } from "./FormPage";
import { cellId } from "./useFocus";
import type { Editing } from "./useSetup";

const TABLE = "agreements";

const GROUPS = [
  ["who", ["car", "customer", "address", "agreement"]],
  ["pays", ["excess", "excess_per", "cap", "share_percent"]],
  ["spared", ["excluded", "wear_excluded", "wear", "included", "recovery", "later_findings_days"]],
  ["sums", ["part_worn", "labour_per_hour", "consumables_percent", "tax_percent", "deposit"]],
  ["hire", ["signed_on", "hire_from", "hire_to", "text"]],
] as const;

interface AgreementFormProps {
  editing: Editing;
  row: Row;
  faults: Fault[];
}

export function AgreementForm({ editing, row, faults }: AgreementFormProps) {
  const spec = specOf(TABLE);
  const currency = formRow(editing.book.tables.rates).cells.currency ?? "";
  if (!spec) return null;
  const commit = (column: string, text: string) =>
    editing.edit(TABLE, (now) => withCell(now, row.id, column, tidied(columnOf(spec, column).kind, text)));
  const isShown = (column: string) => column !== "wear_excluded" || (row.cells.wear_excluded ?? "") !== "";
  return (
    <div class="agreement">
      <div class="stack">
        {GROUPS.map(([group, columns]) => (
          <fieldset key={group} class="stack">
            <legend>{words[group]}</legend>
            {columns.filter(isShown).map((column) => (
              <Field
                key={column}
                column={columnOf(spec, column)}
                value={row.cells[column] ?? ""}
                id={cellId(row.id, column)}
                fault={faultAt(faults, TABLE, row, column)}
                says={sentence(column, row, currency)}
                onCommit={(text) => commit(column, text)}
              />
            ))}
            {group === "spared" && <Drivers editing={editing} row={row} onCommit={(text) => commit("drivers", text)} />}
          </fieldset>
        ))}
      </div>
      <AgreementExample terms={row.cells} code={currency} />
    </div>
  );
}

type Says = typeof words.says;

/** What a term says as it stands. */
function sentence(column: keyof Says, { cells }: Row, currency: string): string {
  const said = cells[column]?.trim() ?? "";
  const amount = said && money(said, currency);
  switch (column) {
    case "excess":
      return words.says.excess(amount, cells.excess_per === "event");
    case "cap":
    case "deposit":
      return words.says[column](amount);
    case "labour_per_hour":
      return words.says.labour_per_hour(amount, Number(said) === 0);
    case "share_percent":
    case "consumables_percent":
    case "tax_percent":
    case "later_findings_days":
      return words.says[column](said);
    case "wear":
      return words.says.wear(said === "charged");
    case "recovery":
      return words.says.recovery(said !== "included");
    case "part_worn":
      return words.says.part_worn(said !== "false");
    default:
      return words.says[column];
  }
}

interface DriversProps {
  editing: Editing;
  row: Row;
  onCommit: (text: string) => void;
}

/** Whoever has a driver's part here, and whoever the agreement names besides. */
function Drivers({ editing, row, onCommit }: DriversProps) {
  const chosen = split(row.cells.drivers);
  const people = (editing.book.tables.people?.rows ?? []).map((one) => one.cells);
  const driving = people.filter((one) => split(one.roles).includes("driver"));
  const names = [...new Set([...driving.map((one) => one.person ?? ""), ...chosen])].filter(Boolean);
  const label = (id: string) => people.find((one) => one.person === id)?.name || id;
  return (
    <div id={cellId(row.id, "drivers")} tabIndex={-1}>
      <AnyOf
        legend={words.drivers}
        options={names.map((value) => ({ value, label: label(value) }))}
        chosen={chosen}
        onToggle={(name, on) => onCommit((on ? [...chosen, name] : chosen.filter((one) => one !== name)).join(";"))}
      />
      <p class="soft says">{names.length > 0 ? words.says.drivers : words.nobody}</p>
    </div>
  );
}

const split = (cell: string | undefined): string[] =>
  (cell ?? "")
    .split(";")
    .map((one) => one.trim())
    .filter(Boolean);
