/** Where the columns and lines of the season's charts stand, and the shopping list for a cover. Pure; for drawing only, never for adding. */

import type { SeasonEvent, SeasonOperation, Spares } from "../../kit/api";
import { money } from "../../kit/money";

export const COVERS = [90, 95, 99] as const;
export type Cover = (typeof COVERS)[number];

/** Heights of an event's columns as shares of the axis, 0 to 1. */
interface Column {
  event: SeasonEvent;
  estimate_share: number;
  actual_share: number;
}

export interface Columns {
  currency: string;
  /** Amount at the top of the axis, a round number. */
  top: number;
  columns: Column[];
}

/** Events by currency, since amounts in different ones can't stand side by side; the order of the events stays. */
export function columnsOf(events: SeasonEvent[]): Columns[] {
  const currencies = [...new Set(events.map((one) => one.currency))];
  return currencies.map((currency) => {
    const own = events.filter((one) => one.currency === currency);
    const top = roundUp(Math.max(...own.flatMap((one) => [length(one.estimate), length(one.actual)])));
    const columns = own.map((event) => ({
      event,
      estimate_share: length(event.estimate) / top,
      actual_share: length(event.actual) / top,
    }));
    return { currency, top, columns };
  });
}

/** A negative amount has no height: the table says it. */
const length = (amount: string) => Math.max(0, Number(amount) || 0);

/** Return the next of 1, 2, 4, 5, 10, 20 … at or above a number; 1 for nothing. Each of them halves to a round number. */
export function roundUp(most: number): number {
  if (!(most > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(most));
  const step = [1, 2, 4, 5, 10].find((one) => one * power >= most * (1 - 1e-12)) ?? 10;
  return step * power;
}

/** An operation's minutes over those that the table expects, as shares of the common scale, 0 to 1. */
export interface Dumbbell {
  operation: SeasonOperation;
  estimate: number;
  actual: number;
  least: number;
  most: number;
  /** Whether the line goes on to the right of the scale. */
  beyond: boolean;
}

export interface Dumbbells {
  /** How many times the expected minutes the right end is; the left one is 0. */
  top: number;
  rows: Dumbbell[];
}

/** Beyond this a slip of the finger would leave all others no room. */
const MOST_TIMES = 4;

/** The operations on one scale: a short one and a long one that took a third more look alike. */
export function dumbbellsOf(operations: SeasonOperation[]): Dumbbells {
  const times = (minutes: number, one: SeasonOperation) => minutes / (one.estimate_minutes || 1);
  const most = Math.max(1.5, ...operations.map((one) => times(one.most_minutes, one)));
  const top = Math.min(MOST_TIMES, Math.ceil(most * 2) / 2);
  const rows = operations.map((operation) => {
    const share = (minutes: number) => Math.min(1, times(minutes, operation) / top);
    return {
      operation,
      estimate: share(operation.estimate_minutes),
      actual: share(operation.actual_minutes),
      least: share(operation.least_minutes),
      most: share(operation.most_minutes),
      beyond: times(operation.most_minutes, operation) > top,
    };
  });
  return { top, rows };
}

export interface ToBuy {
  part: string;
  description: string;
  qty: number;
  cost: string | null;
}

/** What to buy for a cover: chosen out of the server's rows, with the server's total. */
export function shoppingOf(spares: Spares, cover: Cover): { items: ToBuy[]; total: string } {
  const items = spares.parts.flatMap(({ part, description, covers }) => {
    const cell = covers.find((one) => one.cover === cover);
    return cell && cell.buy > 0 ? [{ part, description, qty: cell.buy, cost: cell.buy_cost }] : [];
  });
  return { items, total: spares.totals.find((one) => one.cover === cover)?.buy_cost ?? "" };
}

/** The shopping list as text to send on; `words` say its title, its total and that a part has no price. */
export function shoppingText(
  { items, total }: { items: ToBuy[]; total: string },
  currency: string,
  words: { head: string; total: string; noPrice: string },
): string {
  const priced = (cost: string | null) => (cost === null ? words.noPrice : money(cost, currency));
  const lines = items.map((one) => `${one.qty} × ${one.description || one.part} (${one.part}), ${priced(one.cost)}`);
  return [words.head, ...lines, `${words.total}: ${money(total, currency)}`].join("\n");
}
