/** One text per JSON value: the canonical form of RFC 8785. */

/**
 * Return a JSON value in RFC 8785 form. Fields that are undefined are left out, as in JSON.
 *
 * Numbers and strings are as ECMAScript writes them, names ascend by UTF-16 code unit: the standard asks for just that.
 * Errors: RangeError for a number that JSON does not have.
 */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (typeof value === "number" && !Number.isFinite(value)) throw new RangeError(`${value} is no number of JSON`);
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).filter(([, one]) => one !== undefined);
  const sorted = fields.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${sorted.map(([name, one]) => `${JSON.stringify(name)}:${canonical(one)}`).join(",")}}`;
}
