/** The event as its set-up says it: who has which role, and the itinerary. */

import type { EventSetup, Role, Service } from "../kit/api";

/** An event's set-up. Order in stages and services is the itinerary's. */
export class Event {
  readonly services: Service[];
  readonly #roles: ReadonlyMap<string, Role[]>;
  readonly #stage_places: ReadonlyMap<string | null, number>;
  readonly #service_places: ReadonlyMap<string | null, number>;

  constructor(json: EventSetup) {
    this.services = json.services;
    this.#roles = new Map(json.people.map((one) => [one.person, one.roles]));
    this.#stage_places = new Map(json.stages.map((one, place) => [one.stage, place]));
    this.#service_places = new Map(json.services.map((one, place) => [one.service, place]));
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
