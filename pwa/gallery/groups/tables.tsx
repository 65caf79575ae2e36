/** Tables: sorted, opened beside, with totals, with nothing in them. */

import { useState } from "preact/hooks";
import { Money } from "../../src/view/ui/Money";
import { type Column, Table } from "../../src/view/ui/Table";
import { Case } from "../Case";

export interface Line {
  job: string;
  place: string;
  stage: string | null;
  minutes: number;
  sum: number;
}

export const LINES: Line[] = [
  { job: "Tyre", place: "rear right · flat", stage: "SS2", minutes: 13, sum: 191.92 },
  { job: "Brake caliper", place: "rear right · leaking", stage: "SS8", minutes: 31.5, sum: 173.88 },
  { job: "Front bumper", place: "front end · broken", stage: "SS10", minutes: 9, sum: 168.25 },
  { job: "Tow eye", place: "rear end · bent", stage: null, minutes: 8, sum: 29.33 },
  { job: "Mud flap", place: "rear left · missing", stage: "SS3", minutes: 5, sum: 22.58 },
];

export const COLUMNS: Column<Line>[] = [
  {
    id: "job",
    label: "Job",
    sortBy: (line) => line.job,
    cell: (line) => (
      <>
        {line.job}
        <br />
        <span class="ui-row-meta">{line.place}</span>
      </>
    ),
  },
  { id: "stage", label: "Stage", sortBy: (line) => line.stage, cell: (line) => line.stage ?? "–" },
  {
    id: "min",
    label: "min",
    number: true,
    sortBy: (line) => line.minutes,
    cell: (line) => line.minutes.toFixed(1),
    total: "66.5",
  },
  {
    id: "sum",
    label: "EUR",
    number: true,
    sortBy: (line) => line.sum,
    cell: (line) => <Money amount={line.sum.toFixed(2)} strong />,
    total: <Money amount="585.96" />,
  },
];

export const jobOf = (line: Line) => line.job;

export function Tables() {
  const [current, setCurrent] = useState<string | null>("Brake caliper");
  const plain = COLUMNS.map(({ sortBy: _, total: __, ...column }) => column);
  return (
    <>
      <Case name="Table: heads that sort, a row opened beside it, totals">
        <Table
          caption="Costs by job"
          quiet
          columns={COLUMNS}
          rows={LINES}
          keyOf={jobOf}
          totalLabel="Total"
          empty="No job has costs yet."
          current={current}
          onOpen={(line) => setCurrent(line.job)}
        />
      </Case>
      <Case name="Table: only read; head and totals stay in sight while it scrolls">
        <div class="gallery-short">
          <Table
            caption="The same, lower than its rows"
            columns={COLUMNS}
            rows={LINES}
            keyOf={jobOf}
            totalLabel="Total"
            empty=""
          />
        </div>
      </Case>
      <Case name="Table: nothing in it">
        <Table caption="Costs of car 42" columns={plain} rows={[]} keyOf={jobOf} empty="No job has costs yet." />
      </Case>
    </>
  );
}
