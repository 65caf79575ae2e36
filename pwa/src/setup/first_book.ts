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
  put("rates", { currency: "EUR", labour_per_hour: "0", inspect_minutes: "1;2;4", assess_minutes: "5;10;20" });
  if (who) put("people", { person: who.person, name: who.name, roles: "manager" });
  // A rate table must have its files, if only with their columns.
  const rates = SPECS.map((spec) => spec.file).filter((file) => file.startsWith("rates/"));
  return { ...book, present: ["event.toml", ...new Set(rates)] };
}
