/** Makes the set-up of a team's first event: empty tables, and whoever begins it as its manager. */

import { ownZone } from "../kit/time";
import { emptyBook } from "./files";
import { SPECS } from "./specs";
import { type Book, type Cells, tableOf } from "./table";

/** Return a book that a server takes as it is: nothing in it but the event, its manager and usual minutes. */
export function firstBook(wish: { event: string; name: string }, who: { person: string; name: string } | null): Book {
  const book = emptyBook();
  const put = (table: string, cells: Cells) => {
    book.tables[table] = tableOf(book.tables[table]?.columns ?? [], [cells]);
  };
  put("event", { event: wish.event, name: wish.name, timezone: ownZone() });
  for (const spec of SPECS) {
    const usual = spec.columns.flatMap(({ column, first }) => (first === undefined ? [] : [[column, first] as const]));
    if (usual.length > 0) put(spec.table, Object.fromEntries(usual));
  }
  if (who) put("people", { person: who.person, name: who.name, roles: "manager" });
  // A rate table must have its files, if only with their columns.
  const rates = SPECS.map((spec) => spec.file).filter((file) => file.startsWith("rates/"));
  return { ...book, present: ["event.toml", ...new Set(rates)] };
}
