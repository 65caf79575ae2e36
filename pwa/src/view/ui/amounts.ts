/** How an amount is read from what somebody typed. Text in, text out: money is never a binary fraction. */

/**
 * Return an amount with its decimals in full and a point, or null where the text is no amount.
 *
 * A comma stands for the point (*12,5*), a leading minus may be a true one (−). Thousands must not be set off: whether
 * *1.200* has three decimals or none is not guessed, so more decimals than the currency has are no amount either.
 */
export function writtenAmount(text: string, digits: number): string | null {
  const found = /^([-−]?)(\d{1,12})(?:[.,](\d*))?$/.exec(text.trim());
  if (!found) return null;
  const [, minus, whole = "", decimals = ""] = found;
  if (decimals.length > digits) return null;
  const plain = whole.replace(/^0+(?=\d)/, "");
  return `${minus ? "-" : ""}${plain}${digits > 0 ? `.${decimals.padEnd(digits, "0")}` : ""}`;
}
