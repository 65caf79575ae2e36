/**
 * What hits of one size would cost a customer under an agreement's terms, step by step, as the server calculates it: each
 * hit × share, then at most the excess where that is per incident; together at most the excess where that is per event,
 * then at most the cap; tax, rounded once; less the deposit. A sample: 1,200 with an excess of 750 costs 750.
 */

import { Currency, type Line, total } from "../kit/currency";
import { Fraction } from "../kit/fraction";
import type { Cells } from "./table";

/** Amounts of damage before tax, rounded already; `rest`: below 0 where some of the deposit goes back. */
export interface Example {
  hit: Line;
  damage: Line;
  tax: Line;
  deposit: Line;
  rest: Line;
}

/** Return what `hits` hits of one size cost, or null where a term or the size does not read as a number. */
export function exampleOf(terms: Cells, size: string, hits: number, coin: Currency): Example | null {
  const read = (text: string | undefined, other: string): Fraction | null => amountOf(text?.trim() || other);
  const [damaged, share, tax, deposit] = [
    read(size, ""),
    read(terms.share_percent, "100"),
    read(terms.tax_percent, "0"),
    read(terms.deposit, "0"),
  ];
  const [excess, cap] = [limitOf(terms.excess, coin), limitOf(terms.cap, coin)];
  if (!damaged || !share || !tax || !deposit || excess === undefined || cap === undefined) return null;
  const isEvent = terms.excess_per === "event";
  const borne = coin.round(coin.fraction(coin.round(damaged)).times(share).dividedBy(100));
  const hit = isEvent ? borne : atMost(borne, excess);
  const together = total(Array.from({ length: hits }, () => hit));
  const damage = atMost(isEvent ? atMost(together, excess) : together, cap);
  const taxed = coin.round(coin.fraction(damage).times(tax).dividedBy(100));
  const paid = coin.round(deposit);
  return { hit, damage, tax: taxed, deposit: paid, rest: damage + taxed - paid };
}

const atMost = (amount: Line, limit: Line | null): Line => (limit !== null && amount > limit ? limit : amount);

/** Return a limit, null where there is none, undefined where it does not read as a number. */
function limitOf(text: string | undefined, coin: Currency): Line | null | undefined {
  if (!text?.trim()) return null;
  const amount = amountOf(text);
  return amount ? coin.round(amount) : undefined;
}

const AMOUNT = /^\d{1,12}([.,]\d{1,6})?$/;

function amountOf(text: string): Fraction | null {
  return AMOUNT.test(text.trim()) ? Fraction.read(text.trim().replace(",", ".")) : null;
}

/** Minor units that are not two (ISO 4217, from memory); the server has the whole list. */
const NONE = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF".split(" ");
const THREE = "BHD IQD JOD KWD LYD OMR TND".split(" ");

/** Return the currency of a rate table's code with its decimals; two for an unknown one. */
export const currencyOf = (code: string): Currency =>
  new Currency(code, NONE.includes(code) ? 0 : THREE.includes(code) ? 3 : 2);
