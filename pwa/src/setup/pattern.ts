/** Takes what the package's sample holds into a book: its rate table, its van stock, or all of it as a pattern. */

import { bookOf, type Files } from "./files";
import { type NextEvent, nextEvent } from "./next_event";
import { SPECS } from "./specs";
import { type Book, tableOf } from "./table";

export const RATE_FILES = "rates/";
export const VAN_FILE = "van.csv";

/** Return the book with all tables of the pattern's files whose names begin so. */
export function withFiles(book: Book, files: Files, begin: string): Book {
  const named = Object.entries(files).filter(([name]) => name.startsWith(begin));
  const read = bookOf(Object.fromEntries(named));
  const taken = SPECS.filter((spec) => spec.file.startsWith(begin)).flatMap(({ table }) => {
    const one = read.tables[table];
    return one ? [[table, one] as const] : [];
  });
  const tables = { ...book.tables, ...Object.fromEntries(taken) };
  return { tables, rest: { ...book.rest, ...read.rest }, present: [...new Set([...book.present, ...read.present])] };
}

/** Return a first event made after the sample, moved to its own days, with whoever makes it as a manager of it. */
export function eventAfter(files: Files, wish: NextEvent, who: { person: string; name: string } | null): Book {
  const made = nextEvent(bookOf(files), wish);
  const people = made.tables.people ?? tableOf([], []);
  if (!who || people.rows.some((row) => row.cells.person === who.person)) return made;
  const own = { person: who.person, name: who.name, roles: "manager" };
  const rows = [own, ...people.rows.map((row) => row.cells)];
  return { ...made, tables: { ...made.tables, people: tableOf(people.columns, rows) } };
}
