/** Money as people read it; amounts stay decimal text, never floats. */

import { setApart } from "./language";

const AMOUNT = /^([+-]?)(\d+)(\.\d+)?$/;

/** Return "1,234.50 EUR" (in French "1 234,50 EUR") for ("1234.50", "EUR"); a text that is no amount comes back as it is. */
export function money(amount: string, currency: string): string {
  const parts = AMOUNT.exec(amount);
  if (!parts) return amount;
  const [, sign = "", whole = "", cents = ""] = parts;
  return `${sign === "-" ? "−" : ""}${setApart(whole + cents)} ${currency}`;
}

/**
 * Return an amount as typed ("12,5", " -3 ") as decimal text ("12.5", "-3"), or null where it is none.
 *
 * A lone comma is a decimal sign; thousands are not written.
 */
export function amountOf(typed: string): string | null {
  const text = typed.trim().replace("−", "-").replace(",", ".");
  return /^-?\d+(\.\d+)?$/.test(text) ? text : null;
}
