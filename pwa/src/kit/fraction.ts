/** Exact numbers: a fraction of two BigInts in lowest terms, so that nothing is rounded before the one rounding. */

/** A decimal as JSON, CSV and Python's Decimal write it: "12", "-0.5", "1e-7". */
const DECIMAL = /^([+-]?)(\d*)\.?(\d*)(?:[eE]([+-]?\d{1,4}))?$/;

export class Fraction {
  static readonly ZERO = new Fraction(0n, 1n);

  /** `under` is above 0. */
  private constructor(
    readonly over: bigint,
    readonly under: bigint,
  ) {}

  /** Return over / under. Errors: RangeError for nothing under the line. */
  static of(over: bigint | number, under: bigint | number = 1n): Fraction {
    const [a, b] = [BigInt(over), BigInt(under)];
    if (b === 0n) throw new RangeError("a fraction with nothing under the line");
    const shared = commonDivisor(a, b) * (b < 0n ? -1n : 1n);
    return new Fraction(a / shared, b / shared);
  }

  /** Read a decimal; a number is taken by its shortest text, so that 0.1 is a tenth. Errors: RangeError. */
  static read(decimal: string | number): Fraction {
    const parts = DECIMAL.exec(String(decimal).trim().replaceAll("_", ""));
    const [, sign = "", whole = "", rest = "", exponent = "0"] = parts ?? [];
    if (whole + rest === "") throw new RangeError(`"${decimal}" is no number`);
    const places = rest.length - Number(exponent);
    const digits = BigInt(`${sign === "-" ? "-" : ""}${whole}${rest}`);
    return places < 0 ? Fraction.of(digits * 10n ** BigInt(-places)) : Fraction.of(digits, 10n ** BigInt(places));
  }

  plus(other: Fraction): Fraction {
    return Fraction.of(this.over * other.under + other.over * this.under, this.under * other.under);
  }

  minus(other: Fraction): Fraction {
    return Fraction.of(this.over * other.under - other.over * this.under, this.under * other.under);
  }

  times(other: Fraction | number): Fraction {
    if (typeof other === "number") return Fraction.of(this.over * BigInt(other), this.under);
    return Fraction.of(this.over * other.over, this.under * other.under);
  }

  dividedBy(other: Fraction | number): Fraction {
    if (typeof other === "number") return Fraction.of(this.over, this.under * BigInt(other));
    return Fraction.of(this.over * other.under, this.under * other.over);
  }

  /** Below, equal or above 0 as this is less than, equal to or more than the other. */
  compare(other: Fraction): number {
    const difference = this.over * other.under - other.over * this.under;
    return difference < 0n ? -1 : difference > 0n ? 1 : 0;
  }

  get isZero(): boolean {
    return this.over === 0n;
  }
}

/** Return the sum. */
export function sum(amounts: Iterable<Fraction>): Fraction {
  let total = Fraction.ZERO;
  for (const amount of amounts) total = total.plus(amount);
  return total;
}

/** Return the larger. */
export function max(a: Fraction, b: Fraction): Fraction {
  return a.compare(b) < 0 ? b : a;
}

function commonDivisor(a: bigint, b: bigint): bigint {
  let [larger, smaller] = [a < 0n ? -a : a, b < 0n ? -b : b];
  while (smaller !== 0n) [larger, smaller] = [smaller, larger % smaller];
  return larger;
}
