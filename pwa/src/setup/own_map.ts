/** Begins a team's own car map with the one in force. */

import type { CarMap } from "../kit/api";
import { CAR_MAP_FILE } from "./specs";
import { type Book, type Cells, tableOf } from "./table";

/** Return the book with a car map of its own that says what the map in force says. */
export function ownMap(book: Book, map: CarMap): Book {
  const put = (table: string, rows: Cells[]) => tableOf(book.tables[table]?.columns ?? [], rows.map(filled));
  const tables = {
    ...book.tables,
    car_map: put("car_map", [{ safety_groups: map.safety_groups.join(";") }]),
    zones: put(
      "zones",
      Object.entries(map.zones).map(([zone, { label, kind, people, components }]) => ({
        zone,
        label,
        kind,
        people: String(people),
        components: components.join(";"),
      })),
    ),
    components: put(
      "components",
      Object.entries(map.components).map(([component, { label, group, conditions, sealed }]) => ({
        component,
        label,
        group: group ?? "",
        conditions: conditions.join(";"),
        sealed: sealed ? "true" : "",
      })),
    ),
    symptoms: put(
      "symptoms",
      Object.entries(map.symptoms).map(([symptom, { label, checks, stop }]) => ({
        symptom,
        label,
        checks: checks.join(";"),
        stop,
      })),
    ),
    knock_on: put(
      "knock_on",
      map.knock_on.map(({ component, conditions, same_zone, also }) => ({
        component,
        conditions: conditions.join(";"),
        same_zone: same_zone.join(";"),
        also: also.join(";"),
      })),
    ),
  };
  return { ...book, tables, present: [...new Set([...book.present, CAR_MAP_FILE])] };
}

const filled = (cells: Cells): Cells => Object.fromEntries(Object.entries(cells).filter(([, cell]) => cell !== ""));
