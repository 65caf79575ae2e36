/** Leaves to the program what an event keeps of release 0.1: its car map and check lists. */

import type { SetupFiles } from "../kit/api";
import { CAR_MAP_FILE, SPECS } from "./specs";
import { type Book, tableOf } from "./table";

type Earlier = NonNullable<SetupFiles["earlier"]>;

/** Say whether there is anything to leave: `earlier` is what the server says, `book` what the draft still has of it. */
export function keepsEarlier(book: Book, earlier: Earlier | null): boolean {
  const map = (earlier?.car_map ?? false) && book.present.includes(CAR_MAP_FILE);
  return map || looksOf(book).some(({ cells }) => earlier?.looks?.includes(cells.group ?? ""));
}

/** Return the book without them, so that the program's own of today hold; what the team wrote itself stays. */
export function withNewer(book: Book, earlier: Earlier): Book {
  const map = earlier.car_map ? SPECS.filter((spec) => spec.file === CAR_MAP_FILE) : [];
  const columnsOf = (table: string) => book.tables[table]?.columns ?? [];
  const emptied = map.map(({ table }) => [table, tableOf(columnsOf(table), [])] as const);
  const looks = looksOf(book).filter(({ cells }) => !earlier.looks?.includes(cells.group ?? ""));
  const tables = {
    ...book.tables,
    ...Object.fromEntries(emptied),
    ...(book.tables.looks ? { looks: { ...book.tables.looks, rows: looks } } : {}),
  };
  const { [CAR_MAP_FILE]: rest, ...others } = book.rest;
  return {
    tables,
    rest: earlier.car_map || rest === undefined ? others : { ...others, [CAR_MAP_FILE]: rest },
    present: book.present.filter((file) => !earlier.car_map || file !== CAR_MAP_FILE),
  };
}

const looksOf = (book: Book) => book.tables.looks?.rows ?? [];
