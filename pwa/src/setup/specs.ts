/** Which tables a set-up has, in which file each lies, and what their columns hold. */

import { CONDITIONS } from "../kit/api";

/**
 * What a cell holds: text, a number, yes or no, names by semicolons, numbers by semicolons, part*qty by semicolons, a
 * day, or a time of the event's own zone.
 */
export type Kind = "text" | "number" | "flag" | "list" | "numbers" | "quantities" | "day" | "time";

/** `among`: words that it may hold. `from`: table and column whose cells are suggested. */
export interface Column {
  column: string;
  kind: Kind;
  among?: readonly string[];
  from?: [table: string, column: string];
  /** Holds whole sentences, and wants the room for them. */
  long?: boolean;
}

/**
 * How it lies in its file: rows of a CSV; TOML's own keys (`top`), one table (`one`), an array of tables (`rows`),
 * tables by name (`named`), or values by name (`values`). A form has one row.
 */
type Shape = "csv" | "top" | "one" | "rows" | "named" | "values";

export interface Spec {
  table: string;
  file: string;
  shape: Shape;
  columns: Column[];
  /** What tells rows apart. */
  keys: string[];
}

const text = (column: string, among?: readonly string[]): Column => ({ column, kind: "text", among });
const sentence = (column: string): Column => ({ column, kind: "text", long: true });
const number = (column: string): Column => ({ column, kind: "number" });
const flag = (column: string): Column => ({ column, kind: "flag", among: ["true", "false"] });
const list = (column: string, among?: readonly string[]): Column => ({ column, kind: "list", among });
const numbers = (column: string): Column => ({ column, kind: "numbers" });
const from = (column: Column, table: string, other: string): Column => ({ ...column, from: [table, other] });
const three = ["minutes_best", "minutes_likely", "minutes_worst"].map(number);

const EVENT = "event.toml";
const MAP = "car_map.toml";
const OWN = "rates/rates.toml";
const STEPS = (column: string) => from(list(column), "access", "step");
const PART = (column: string): Column => from({ column, kind: "quantities" }, "parts", "part");
const COMPONENT = from(text("component"), "components", "component");
const CAR = from(text("car"), "cars", "car");
const SERVICES = from(list("services"), "services", "service");
const ROLES = ["driver", "co-driver", "mechanic", "inspector", "manager"];
const ZONE_KINDS = ["corner", "end", "side", "roof", "underside", "engine", "cabin", "boot"];

const EVENT_SPECS: Spec[] = [
  {
    table: "event",
    file: EVENT,
    shape: "top",
    keys: [],
    columns: [text("event"), text("name"), text("timezone"), text("kind", ["rally", "school"]), text("emergency")],
  },
  { table: "cars", file: EVENT, shape: "rows", keys: ["car"], columns: [text("car"), text("label")] },
  {
    table: "people",
    file: EVENT,
    shape: "rows",
    keys: ["person"],
    columns: [text("person"), text("name"), list("roles", ROLES), list("skills")],
  },
  { table: "stages", file: EVENT, shape: "rows", keys: ["stage"], columns: [text("stage"), number("km")] },
  {
    table: "places",
    file: EVENT,
    shape: "rows",
    keys: ["stage", "km"],
    columns: [from(text("stage"), "stages", "stage"), number("km"), number("lat"), number("lon")],
  },
  {
    table: "services",
    file: EVENT,
    shape: "rows",
    keys: ["service"],
    columns: [
      text("service"),
      from(text("after"), "stages", "stage"),
      text("kind"),
      { column: "arrive", kind: "time" },
      number("minutes"),
      number("in_and_out_minutes"),
      flag("parc_ferme_after"),
    ],
  },
  {
    table: "regulations",
    file: EVENT,
    shape: "one",
    keys: [],
    columns: [
      number("late_penalty_s_per_minute"),
      number("early_penalty_s_per_minute"),
      number("late_limit_minutes"),
      number("total_late_limit_minutes"),
      flag("advice_on_road"),
      number("official_lead_minutes"),
    ],
  },
  { table: "trust", file: EVENT, shape: "one", keys: [], columns: [text("signatures", ["on", "off"])] },
  {
    table: "routine",
    file: EVENT,
    shape: "rows",
    keys: ["task"],
    columns: [
      text("task"),
      SERVICES,
      numbers("minutes"),
      number("mechanics"),
      from(text("zone"), "zones", "zone"),
      STEPS("access"),
      flag("must_do"),
    ],
  },
  {
    table: "resources",
    file: EVENT,
    shape: "rows",
    keys: ["resource"],
    columns: [text("resource"), number("count"), STEPS("held_by")],
  },
  {
    table: "tools",
    file: EVENT,
    shape: "values",
    keys: ["action"],
    columns: [from(text("action"), "operations", "action"), list("tools")],
  },
  {
    table: "looks",
    file: EVENT,
    shape: "rows",
    keys: ["group", "check"],
    columns: [from(text("group"), "components", "group"), sentence("check")],
  },
  {
    table: "agreements",
    file: EVENT,
    shape: "rows",
    keys: ["agreement"],
    columns: [
      text("agreement"),
      CAR,
      text("customer"),
      from(list("drivers"), "people", "person"),
      number("excess"),
      text("excess_per", ["incident", "event"]),
      number("cap"),
      number("share_percent"),
      from(list("wear_excluded"), "components", "component"),
      PART("included"),
      flag("part_worn"),
      number("labour_per_hour"),
      number("consumables_percent"),
      text("recovery", ["charged", "included"]),
      number("deposit"),
      number("tax_percent"),
      number("later_findings_days"),
      sentence("text"),
    ],
  },
  {
    table: "dated",
    file: EVENT,
    shape: "rows",
    keys: ["car", "item", "place"],
    columns: [CAR, text("item"), text("place"), { column: "expires", kind: "day" }, text("seal")],
  },
];

const RATE_SPECS: Spec[] = [
  {
    table: "rates",
    file: OWN,
    shape: "top",
    keys: [],
    columns: [
      text("currency"),
      number("labour_per_hour"),
      number("tax_percent"),
      number("consumables_percent"),
      numbers("inspect_minutes"),
      numbers("assess_minutes"),
    ],
  },
  {
    table: "inspect_minutes_by_group",
    file: OWN,
    shape: "values",
    keys: ["group"],
    columns: [from(text("group"), "components", "group"), numbers("minutes")],
  },
  {
    table: "operations",
    file: "rates/operations.csv",
    shape: "csv",
    keys: ["component", "condition", "zone"],
    columns: [
      COMPONENT,
      text("condition", CONDITIONS.slice(1)),
      text("action"),
      ...three,
      number("mechanics"),
      STEPS("access"),
      PART("parts"),
      flag("must_do"),
      number("value"),
      from(text("zone"), "zones", "zone"),
      text("skill"),
      list("after"),
      from(list("then"), "checks", "check"),
      flag("ground"),
      flag("fire_risk"),
      flag("wear"),
      number("max_events"),
    ],
  },
  {
    table: "access",
    file: "rates/access.csv",
    shape: "csv",
    keys: ["step"],
    columns: [
      text("step"),
      text("per", ["car", "zone"]),
      number("minutes_open"),
      number("minutes_close"),
      number("mechanics"),
      STEPS("needs"),
    ],
  },
  {
    table: "parts",
    file: "rates/parts.csv",
    shape: "csv",
    keys: ["part"],
    columns: [text("part"), text("description"), number("unit_cost"), text("supplier")],
  },
  {
    table: "checks",
    file: "rates/checks.csv",
    shape: "csv",
    keys: ["check"],
    columns: [
      text("check"),
      ...three,
      number("mechanics"),
      text("when", ["before-close", "on-ground"]),
      text("by", ["anyone", "other", "inspector"]),
    ],
  },
  {
    table: "van",
    file: "van.csv",
    shape: "csv",
    keys: ["part"],
    columns: [from(text("part"), "parts", "part"), number("loaded")],
  },
];

const MAP_SPECS: Spec[] = [
  { table: "car_map", file: MAP, shape: "top", keys: [], columns: [list("safety_groups")] },
  {
    table: "zones",
    file: MAP,
    shape: "named",
    keys: ["zone"],
    columns: [text("zone"), text("label"), text("kind", ZONE_KINDS), number("people"), list("components")],
  },
  {
    table: "components",
    file: MAP,
    shape: "named",
    keys: ["component"],
    columns: [text("component"), text("label"), text("group"), list("conditions", CONDITIONS), flag("sealed")],
  },
  {
    table: "symptoms",
    file: MAP,
    shape: "named",
    keys: ["symptom"],
    columns: [text("symptom"), text("label"), list("checks"), sentence("stop")],
  },
  {
    table: "knock_on",
    file: MAP,
    shape: "rows",
    keys: ["component"],
    columns: [COMPONENT, list("conditions", CONDITIONS), list("same_zone"), list("also")],
  },
];

export const SPECS: readonly Spec[] = [...EVENT_SPECS, ...RATE_SPECS, ...MAP_SPECS];
export const CAR_MAP_FILE = MAP;
export const EVENT_FILE = EVENT;

/** Return a table's description, or null for a name that is none. */
export const specOf = (table: string): Spec | null => SPECS.find((spec) => spec.table === table) ?? null;

/** Return whether a table has one row and is filled in as a form. */
export const isForm = (spec: Spec): boolean => spec.shape === "top" || spec.shape === "one";

/** Return what a column holds: text where the app does not know the column. */
export const columnOf = (spec: Spec, column: string): Column =>
  spec.columns.find((one) => one.column === column) ?? { column, kind: "text" };

/** Return what tells a row from others, as people read it. */
export const keyOf = (spec: Spec, cells: Record<string, string>): string =>
  spec.keys
    .map((key) => cells[key]?.trim() ?? "")
    .filter(Boolean)
    .join(" ");
