/** What everybody in an event is told of who may be believed. Pure. */

import type { SecondInvite, Setup } from "../kit/api";

/** Whether the log is being rebuilt, whether who speaks owns it, invites for people of the event who had a device. */
export interface Told {
  rebuild: boolean;
  owner: boolean;
  second_invites: SecondInvite[];
  /** The log was once folded by the rules of 0.1, and this manager was not told yet what that means here. */
  first_rules: boolean;
}

/** Return what is told to a person in an event, or null for nothing; a server of 0.1 tells nothing. */
export function toldOf(
  setup: Setup | undefined,
  event: string | undefined,
  person: string,
  passes_told: readonly string[],
): Told | null {
  const people = setup?.events.find((one) => one.event === event)?.people ?? [];
  const second_invites = (setup?.second_invites ?? []).filter((one) => people.some((o) => o.person === one.person));
  const rebuild = setup?.rebuild ?? false;
  const manages = people.some((one) => one.person === person && one.roles.includes("manager"));
  const first_rules = manages && setup?.first_rules === true && !passes_told.includes(toldKey(event ?? "", person));
  if (!rebuild && second_invites.length === 0 && !first_rules) return null;
  return { rebuild, owner: setup?.owners?.includes(person) ?? false, second_invites, first_rules };
}

/** Who was told, of which event, as it is kept. */
export const toldKey = (event: string, person: string): string => JSON.stringify([event, person]);
