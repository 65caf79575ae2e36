/** The event as its set-up says it: who has which role, and the itinerary. */

import type { EventSetup, Role, Service } from "../kit/api";
import { grouped } from "../kit/grouped";

/** An event's set-up. Order in stages and services is the itinerary's. */
export class Event {
  readonly services: Service[];
  /** The checks that a pass on a job must have ok, by the job's group. */
  readonly #must: ReadonlyMap<string | null, string[]>;
  readonly #roles: ReadonlyMap<string, Role[]>;
  readonly #stage_places: ReadonlyMap<string | null, number>;
  readonly #service_places: ReadonlyMap<string | null, number>;

  constructor(json: EventSetup) {
    this.services = json.services;
    // A set-up that an older server gave, and this phone still holds, has no rows: then it can't say what is a must.
    const must = (json.check_lists ?? []).filter((row) => row.must);
    const by_group = grouped(must, (row) => row.group);
    this.#must = new Map([...by_group].map(([group, rows]) => [group, rows.map((row) => row.check)]));
    this.#roles = new Map(json.people.map((one) => [one.person, one.roles]));
    this.#stage_places = new Map(json.stages.map((one, place) => [one.stage, place]));
    this.#service_places = new Map(json.services.map((one, place) => [one.service, place]));
  }

  /** Return what a pass on a job of `group` must have ok, by the lists in force. */
  mustChecks(group: string | null): string[] {
    return this.#must.get(group) ?? [];
  }

  /** Say whether `person` has `role` in the set-up as it is now. */
  hasRole(person: string, role: Role): boolean {
    return this.#roles.get(person)?.includes(role) ?? false;
  }

  /** Return the stage's place in the itinerary, or null where it is not in it. */
  stageIndex(stage: string | null): number | null {
    return this.#stage_places.get(stage) ?? null;
  }

  /** Return the service's place in the itinerary, or null where it is not in it. */
  serviceIndex(service: string | null): number | null {
    return this.#service_places.get(service) ?? null;
  }
}
