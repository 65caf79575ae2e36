/** Text by code points: whole ones, and in their order, as the server sorts. Plain `<` goes by UTF-16 units, where U+1D537 precedes U+FF5A. */

/** Compare two texts by code point. */
export function byCodePoint(a: string, b: string): number {
  const shared = Math.min(a.length, b.length);
  for (let place = 0; place < shared; place++) {
    const difference = rank(a.charCodeAt(place)) - rank(b.charCodeAt(place));
    if (difference !== 0) return difference;
  }
  return a.length - b.length;
}

// Surrogates (U+D800 to U+DFFF) stand for what lies above U+FFFF, so they come after U+E000 to U+FFFF.
function rank(unit: number): number {
  if (unit < 0xd800) return unit;
  return unit < 0xe000 ? unit + 0x2000 : unit - 0x800;
}

/**
 * Return a JSON value whose texts are whole: half a surrogate pair is left out.
 *
 * A field's `maxLength` counts UTF-16 units and may cut a character in two; JSON carries such a half as an escape that
 * no reader of UTF-8 takes.
 */
export function whole<T>(value: T): T {
  if (typeof value === "string") return value.replaceAll(/\p{Surrogate}/gu, "") as T;
  if (Array.isArray(value)) return value.map(whole) as T;
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, whole(one)])) as T;
}

/** Return texts ascending and unique. */
export function sortedSet(texts: Iterable<string>): string[] {
  return [...new Set(texts)].sort(byCodePoint);
}
