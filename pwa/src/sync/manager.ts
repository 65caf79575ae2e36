/** Which of the people on this phone may do what only a manager may. */

import type { EventSetup } from "../kit/api";
import type { IdentityRecord } from "../store/db";

/** Return a manager of this phone whose token is taken, the person who speaks before others; null where there is none. */
export function managerOf(
  identities: IdentityRecord[],
  events: EventSetup[],
  person: string | null,
): IdentityRecord | null {
  const managers = identities.filter((one) => !one.refused && isManager(one, events));
  return managers.find((one) => one.person === person) ?? managers.at(-1) ?? null;
}

// The set-ups say who is what; only where none names the person does what the server said at joining count.
function isManager({ person, roles }: IdentityRecord, events: EventSetup[]): boolean {
  const known = events.flatMap((one) => one.people).filter((one) => one.person === person);
  return known.length > 0 ? known.some((one) => one.roles.includes("manager")) : roles.includes("manager");
}
