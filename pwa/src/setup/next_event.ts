/** Makes the set-up of a new event from that of the last one. */

import { daysBetween, daysLater, dayOf } from "./times";
import { type Book, formRow, type Row, type Table } from "./table";

/** What a manager says of a new event; `first_day`: YYYY-MM-DD. */
export interface NextEvent {
  event: string;
  name: string;
  first_day: string;
  stages: "kept" | "emptied";
}

/**
 * Return the new event's book: cars, people, regulations, routine, car map, rates, van, dated items and lives are taken over.
 * Services and the starts of stages move by the days between the two first days. Agreements and their clauses are made for one event, so none is.
 */
export function nextEvent(last: Book, wish: NextEvent): Book {
  const first = firstDayOf(last);
  const days = first === null ? 0 : daysBetween(first, wish.first_day);
  const isEmptied = wish.stages === "emptied";
  const moved = (row: Row): Row => ({
    ...row,
    cells: { ...row.cells, arrive: daysLater(row.cells.arrive ?? "", days), ...(isEmptied ? { after: "" } : {}) },
  });
  const begun = (row: Row): Row =>
    row.cells.start ? { ...row, cells: { ...row.cells, start: daysLater(row.cells.start, days) } } : row;
  const event = formRow(last.tables.event);
  const tables = {
    ...last.tables,
    event: withRows(last.tables.event, [{ ...event, cells: { ...event.cells, event: wish.event, name: wish.name } }]),
    services: withRows(last.tables.services, (last.tables.services?.rows ?? []).map(moved)),
    agreements: withRows(last.tables.agreements, []),
    clauses: withRows(last.tables.clauses, []),
    stages: withRows(last.tables.stages, isEmptied ? [] : (last.tables.stages?.rows ?? []).map(begun)),
    ...(isEmptied ? { places: withRows(last.tables.places, []) } : {}),
  };
  return { ...last, tables };
}

const withRows = (table: Table | undefined, rows: Row[]): Table => ({ columns: table?.columns ?? [], rows });

/** Return the day of the first service, or null where none has a time. */
export function firstDayOf(book: Book): string | null {
  const days = (book.tables.services?.rows ?? []).map((row) => dayOf(row.cells.arrive ?? ""));
  return days.filter((day) => day !== null).toSorted()[0] ?? null;
}

/** Return an id for an event: its name in small letters and digits, and the year unless the name has it. */
export function eventId(name: string, day: string): string {
  const plain = name.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const words = plain.split(/[^a-z0-9]+/).filter(Boolean);
  const year = day.slice(0, 4);
  return [...words, ...(year && !words.includes(year) ? [year] : [])].join("-");
}
