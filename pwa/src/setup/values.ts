/** A TOML value as a cell and back; a cell that does not read as its kind is written as text, for the server to name. */

import { TomlDate } from "smol-toml";
import type { Kind } from "./specs";
import { withOffset, withoutOffset } from "./times";

const parts = (cell: string): string[] =>
  cell
    .split(";")
    .map((part) => part.trim())
    .filter(Boolean);

const NUMBER = /^[+-]?\d+(\.\d+)?([eE][+-]?\d+)?$/;

/** Return the cell of a value, or null where a cell of this kind cannot hold it. */
export function cellOf(kind: Kind, value: unknown, timezone: string): string | null {
  return READ[kind](value, timezone);
}

/** Return the value of a cell that is not empty. */
export function tomlValue(kind: Kind, cell: string, timezone: string): unknown {
  return WRITE[kind](cell.trim(), timezone);
}

const READ: Record<Kind, (value: unknown, timezone: string) => string | null> = {
  text: textOf,
  number: (value) => (isNumber(value) ? String(value) : textOf(value)),
  flag: (value) => (typeof value === "boolean" ? String(value) : textOf(value)),
  list: (value) => (Array.isArray(value) ? joined(value, isText) : null),
  numbers: (value) => (Array.isArray(value) ? joined(value.map(numberText), isText) : null),
  quantities: quantitiesOf,
  day: (value) => (value instanceof TomlDate && value.isDate() ? value.toISOString() : textOf(value)),
  time: (value, timezone) =>
    value instanceof TomlDate && value.isDateTime() ? withoutOffset(value.toISOString(), timezone) : textOf(value),
};

const WRITE: Record<Kind, (cell: string, timezone: string) => unknown> = {
  text: (cell) => cell,
  number: numberOf,
  flag: flagOf,
  list: parts,
  numbers: (cell) => parts(cell).map(numberOf),
  quantities: (cell) => Object.fromEntries(parts(cell).map(quantityOf)),
  day: (cell) => (/^\d{4}-\d\d-\d\d$/.test(cell) ? dated(cell) : cell),
  time: (cell, timezone) => {
    const full = /[+-]\d\d:\d\d$|z$/i.test(cell) ? cell : withOffset(cell, timezone);
    return full === null ? cell : dated(full);
  },
};

// A text that a trimmed cell holds as it is; others stay in the row's rest.
function textOf(value: unknown): string | null {
  return typeof value === "string" && value === value.trim() ? value : null;
}

const isText = (value: unknown): value is string =>
  typeof value === "string" && value !== "" && value === value.trim() && !value.includes(";");

const isNumber = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value);

const numberText = (value: unknown) => (isNumber(value) ? String(value) : value);

function joined(values: unknown[], fits: (value: unknown) => boolean): string | null {
  return values.every(fits) ? values.join(";") : null;
}

function quantitiesOf(value: unknown): string | null {
  if (typeof value !== "object" || value === null || Array.isArray(value) || value instanceof TomlDate) return null;
  const pairs = Object.entries(value);
  if (!pairs.every(([name, count]) => isText(name) && !name.includes("*") && isNumber(count))) return null;
  return pairs.map(([name, count]) => `${name}*${count}`).join(";");
}

// The shortest text of a double gives it back up to 15 digits: more than any amount of money here.
function numberOf(cell: string): number | string {
  return NUMBER.test(cell) && Number.isFinite(Number(cell)) ? Number(cell) : cell;
}

function flagOf(cell: string): boolean | string {
  const word = cell.toLowerCase();
  if (["true", "yes", "1"].includes(word)) return true;
  return ["false", "no", "0"].includes(word) ? false : cell;
}

function quantityOf(part: string): [string, number | string] {
  const [name = "", count] = part.split("*").map((one) => one.trim());
  return [name, count === undefined ? 1 : numberOf(count)];
}

function dated(text: string): TomlDate | string {
  const date = new TomlDate(text);
  return Number.isNaN(date.getTime()) ? text : date;
}
