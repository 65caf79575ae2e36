/**
 * Money in exact numbers: fractions inside, one rounding per line, half up, to ISO 4217 minor units.
 *
 * A line is rounded once; totals add rounded lines. Sample: 4.5 min × 1 × 60.00 / h = 4.50 EUR.
 */

import { Fraction } from "./fraction";

/** A line of money, rounded already: how many of the currency's minor unit. */
export type Line = bigint;

/** An ISO 4217 currency: its code and how many decimals its minor unit has. */
export class Currency {
  constructor(
    readonly code: string,
    readonly decimals: number,
  ) {}

  /** Return an amount rounded half up (away from zero) to the minor unit. */
  round(amount: Fraction): Line {
    return halfUp(amount, this.decimals);
  }

  /** Return a line as an exact number, to calculate on with. */
  fraction(line: Line): Fraction {
    return Fraction.of(line, 10n ** BigInt(this.decimals));
  }

  /** Return a line with exactly the currency's decimals, as it stands in JSON. */
  text(line: Line): string {
    return decimalText(line, this.decimals);
  }
}

/** Return minutes as they stand in JSON: a number rounded half up to two decimals. */
export function twoDecimals(minutes: Fraction): number {
  return Number(decimalText(halfUp(minutes, 2), 2));
}

/** Return a quantity as it stands in JSON: a number rounded half up to four decimals. */
export function quantity(qty: Fraction): number {
  return Number(decimalText(halfUp(qty, 4), 4));
}

/** Add lines that are rounded already. */
export function total(lines: Iterable<Line>): Line {
  let added = 0n;
  for (const line of lines) added += line;
  return added;
}

function halfUp(amount: Fraction, decimals: number): bigint {
  const scaled = amount.times(Fraction.of(10n ** BigInt(decimals)));
  const size = scaled.over < 0n ? -scaled.over : scaled.over;
  const whole = (size * 2n + scaled.under) / (scaled.under * 2n);
  return scaled.over < 0n ? -whole : whole;
}

function decimalText(units: bigint, decimals: number): string {
  const digits = String(units < 0n ? -units : units).padStart(decimals + 1, "0");
  const place = digits.length - decimals;
  const text = decimals === 0 ? digits : `${digits.slice(0, place)}.${digits.slice(place)}`;
  return units < 0n ? `-${text}` : text;
}
