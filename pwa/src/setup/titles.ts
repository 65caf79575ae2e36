/** Finds a table by what people call it: the name in the files, or its title on the screen in either language. */

import { SPECS, type Spec, specOf } from "./specs";

/** Title by table, in one language. */
export type Titles = Record<string, string>;

/** Return what finds a table's description by its name or any of its titles, in any case; null where there is none. */
export function findTable(titles: readonly Titles[]): (name: string) => Spec | null {
  const found = new Map<string, string>();
  for (const { table } of SPECS) {
    for (const name of [table, ...titles.map((one) => one[table] ?? table)]) found.set(plain(name), table);
  }
  // A table's own name comes before another's title.
  for (const { table } of SPECS) found.set(plain(table), table);
  return (name) => specOf(found.get(plain(name)) ?? "");
}

/** Spreadsheets cut a sheet's name off after 31 characters, and some people type no accents. */
const plain = (name: string): string =>
  name
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim()
    .slice(0, 31)
    .trim();
