// @vitest-environment happy-dom
/** What grows, shrinks and sorts: the list editor and the table. */

import { useState } from "preact/hooks";
import { describe, expect, test, vi } from "vitest";
import { ListEditor } from "../src/view/ui/ListEditor";
import { List, Row } from "../src/view/ui/Row";
import { nextSorting, sorted } from "../src/view/ui/sorting";
import { type Column, Table } from "../src/view/ui/Table";
import { click, does, get, show, status, type } from "./ui_dom";

const WORDS = {
  add: "Add",
  empty: "Nothing yet.",
  remove: (label: string) => `Take ${label} out`,
  added: (label: string) => `${label} added.`,
  removed: (label: string) => `${label} taken out.`,
};

test("a full row is seven elements, since a queue may have hundreds", () => {
  show(
    <List>
      <Row title="Brake hose" meta="leaking · SS4" figure="9 min" under="replace" tone="must" href="#/job" />
    </List>,
  );
  expect(document.querySelectorAll("li, li *").length).toBe(7);
  expect(document.querySelector("a")?.textContent).toBe("Brake hoseleaking · SS49 minreplace");
});

describe("list editor", () => {
  function Included({ start }: { start: string[] }) {
    const [items, setItems] = useState(start);
    return (
      <ListEditor
        label="Included"
        items={items.map((label) => ({ id: label, label }))}
        words={WORDS}
        check={(text) => (items.includes(text) ? `${text} is there already.` : null)}
        onAdd={(text) => setItems((now) => [...now, text])}
        onRemove={(id) => setItems((now) => now.filter((one) => one !== id))}
      />
    );
  }
  const field = () => document.querySelector("input") ?? expect.fail("no field");
  const listed = () => [...document.querySelectorAll("li > span")].map((one) => one.textContent);
  const add = (text: string) => {
    type(field(), text);
    does(() => document.querySelector("form")?.requestSubmit());
  };

  test("what is typed is added without its spaces, said, and the field is empty for the next one", () => {
    show(<Included start={[]} />);
    expect(document.body.textContent).toContain("Nothing yet.");
    add("  4 tyres ");
    expect([listed(), field().value, status()]).toEqual([["4 tyres"], "", "4 tyres added."]);
    add("pads");
    expect(listed()).toEqual(["4 tyres", "pads"]);
  });

  test("nothing is not added; what is wrong stays in the field with its reason, until it is changed", () => {
    show(<Included start={["pads"]} />);
    add("   ");
    expect(listed()).toEqual(["pads"]);
    add("pads");
    expect([listed(), field().value]).toEqual([["pads"], "pads"]);
    expect(document.body.textContent).toContain("pads is there already.");
    expect(field().getAttribute("aria-invalid")).toBe("true");
    type(field(), "pads, front");
    expect(field().hasAttribute("aria-invalid")).toBe(false);
  });

  test("the focus goes to the next cross, at the end to the one before, and then to the field", () => {
    show(<Included start={["a", "b", "c"]} />);
    const take = (label: string) => click(get("button", `Take ${label} out`));
    take("b");
    expect(document.activeElement).toBe(get("button", "Take c out"));
    expect([listed(), status()]).toEqual([["a", "c"], "b taken out."]);
    take("c");
    expect(document.activeElement).toBe(get("button", "Take a out"));
    take("a");
    expect(document.activeElement).toBe(field());
    expect(listed()).toEqual([]);
  });
});

interface Line {
  job: string;
  stage: string | null;
  sum: number;
}
const LINES: Line[] = [
  { job: "Tyre", stage: "SS10", sum: 40 },
  { job: "Caliper", stage: null, sum: 145 },
  { job: "Arm", stage: "SS9", sum: 40 },
  { job: "Flap", stage: "SS2", sum: 7.5 },
];
const COLUMNS: Column<Line>[] = [
  { id: "job", label: "Job", cell: (line) => line.job },
  { id: "stage", label: "Stage", cell: (line) => line.stage, sortBy: (line) => line.stage },
  { id: "sum", label: "Sum", number: true, cell: (line) => line.sum, sortBy: (line) => line.sum, total: "232.50" },
];

describe("table", () => {
  const jobs = () => [...document.querySelectorAll("tbody th")].map((one) => one.textContent);
  const way = (at: number) => document.querySelectorAll("thead th")[at]?.getAttribute("aria-sort");
  const table = (more = {}) => (
    <Table caption="Costs" columns={COLUMNS} rows={LINES} keyOf={(line) => line.job} empty="Nothing." {...more} />
  );

  test("a head sorts, the other way at the second tap, and at the third as the rows came", () => {
    show(table());
    const seen = [1, 2, 3].map(() => {
      click(get("button", "Stage"));
      return [way(1), jobs().join(" ")];
    });
    expect(seen).toEqual([
      // SS9 before SS10, and what has no stage last, both ways.
      ["ascending", "Flap Arm Tyre Caliper"],
      ["descending", "Tyre Arm Flap Caliper"],
      ["none", "Tyre Caliper Arm Flap"],
    ]);
  });

  test("numbers begin with the largest, and equal ones stay as they came; one head sorts at a time", () => {
    show(table());
    click(get("button", "Stage"));
    click(get("button", "Sum"));
    expect([way(1), way(2), jobs().join(" ")]).toEqual(["none", "descending", "Caliper Tyre Arm Flap"]);
    expect(document.querySelectorAll("thead th")[0]?.hasAttribute("aria-sort")).toBe(false);
  });

  test("totals stand at the foot, whatever is sorted; without rows there are none", () => {
    show(table({ totalLabel: "Total" }));
    click(get("button", "Sum"));
    expect([...document.querySelectorAll("tfoot tr > *")].map((one) => one.textContent)).toEqual([
      "Total",
      "",
      "232.50",
    ]);
    show(table({ totalLabel: "Total", rows: [] }));
    expect(document.querySelector("tfoot")).toBeNull();
    expect(document.querySelector("tbody")?.textContent).toBe("Nothing.");
  });

  test("a row is opened by the button in its first column, and the opened one is marked", () => {
    const opened = vi.fn();
    show(table({ onOpen: opened, current: "Arm" }));
    click(get("button", "Flap"));
    expect(opened.mock.calls).toEqual([[LINES[3]]]);
    const marked = [...document.querySelectorAll("tr[aria-current]")].map(
      (one) => one.querySelector("th")?.textContent,
    );
    expect(marked).toEqual(["Arm"]);
  });
});

test("whole numbers of money sort as such, and the rows that came are left as they were", () => {
  const rows = [9n, 10n, -1n];
  expect(sorted(rows, (row) => row, "ascending")).toEqual([-1n, 9n, 10n]);
  expect(rows).toEqual([9n, 10n, -1n]);
  expect(nextSorting({ by: "a", direction: "descending" }, "b", "ascending")).toEqual({
    by: "b",
    direction: "ascending",
  });
});
