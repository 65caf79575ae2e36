/** What `here` and `across` in the car map's `checks` and `also` mean for a report about a zone. Pure. */

/** What the zone of a key may be beside a zone's name. */
const HERE = "here";
const ACROSS = "across";

/** What of a car map the keys are placed by; `across` is the zone on the other side, or null. */
export interface Places {
  names: Iterable<string>;
  lists(zone: string, component: string): boolean;
  across(zone: string): string | null;
}

/**
 * Return the keys that `key` means for a report about `zone`.
 *
 * `here/…` is that zone, `across/…` the zone on its other side, each where it lists the component; any other key is
 * itself.
 */
export function placed(key: string, zone: string, places: Places): string[] {
  const [place, component] = parts(key);
  if (place !== HERE && place !== ACROSS) return [key];
  const meant = place === HERE ? zone : places.across(zone);
  return meant !== null && places.lists(meant, component) ? [`${meant}/${component}`] : [];
}

/** Return the keys that a symptom's checks mean; `here` is each zone that lists the component where `zone` does not. */
export function placedChecks(checks: string[], zone: string, places: Places): string[] {
  return checks.flatMap((check) => {
    const [place, component] = parts(check);
    if (place !== HERE || places.lists(zone, component)) return placed(check, zone, places);
    return [...places.names].filter((one) => places.lists(one, component)).map((one) => `${one}/${component}`);
  });
}

function parts(key: string): [string, string] {
  const slash = key.indexOf("/");
  return [key.slice(0, slash), key.slice(slash + 1)];
}
