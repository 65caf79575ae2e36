/** Puts values into groups, each in the order in which it came. */

/** Return the values by what `keyOf` says of each. */
export function grouped<K, V>(values: Iterable<V>, keyOf: (value: V) => K): Map<K, V[]> {
  const groups = new Map<K, V[]>();
  for (const value of values) {
    const key = keyOf(value);
    const group = groups.get(key);
    if (group) group.push(value);
    else groups.set(key, [value]);
  }
  return groups;
}
