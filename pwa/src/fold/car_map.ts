/** The car map: zones, components with their groups, symptoms and knock-on rules. */

import { type CarMap as CarMapJson, CONDITIONS, type Condition } from "../kit/api";
import { grouped } from "../kit/grouped";
import { type Places, placedChecks } from "../report/placing";

type Component = CarMapJson["components"][string];
type KnockOn = CarMapJson["knock_on"][number];

const FIXED_GROUPS: ReadonlySet<string | null> = new Set(["cage", "brake", "steering"]);

/** The key `zone/component` that names a job. */
export const jobKey = (zone: string, component: string) => `${zone}/${component}`;

/** Return [zone, component] of a job's key. */
export function splitKey(key: string): [string, string] {
  const slash = key.indexOf("/");
  return [key.slice(0, slash), key.slice(slash + 1)];
}

interface Zone {
  kind: CarMapJson["zones"][string]["kind"];
  across: string | null;
  components: ReadonlySet<string>;
}

// A set-up that an older server gave, and this phone still holds, says nothing of `across`.
const zoneOf = ({ kind, across, components }: CarMapJson["zones"][string]): Zone => ({
  kind,
  across: across ?? null,
  components: new Set(components),
});

/** A car map; `fixed` are the groups that the package's own map gives and no team's map takes away. */
export class CarMap implements Places {
  // Maps, since a plain object would know a component named "constructor".
  readonly zones: ReadonlyMap<string, Zone>;
  readonly components: ReadonlyMap<string, Component>;
  readonly symptoms: ReadonlyMap<string, { checks: string[] }>;
  readonly knock_on_by_component: ReadonlyMap<string, KnockOn[]>;
  readonly safety_groups: ReadonlySet<string | null>;
  readonly fixed: ReadonlyMap<string, string>;

  constructor(json: CarMapJson) {
    this.zones = new Map(Object.entries(json.zones).map(([zone, table]) => [zone, zoneOf(table)]));
    this.components = new Map(Object.entries(json.components));
    this.symptoms = new Map(Object.entries(json.symptoms));
    this.knock_on_by_component = grouped(json.knock_on, (rule) => rule.component);
    this.safety_groups = new Set(json.safety_groups);
    this.fixed = new Map(Object.entries(json.fixed));
  }

  /** Say whether the map lists `component` in `zone`. */
  lists(zone: string, component: string): boolean {
    return this.zones.get(zone)?.components.has(component) ?? false;
  }

  /** The names of its zones. */
  get names(): Iterable<string> {
    return this.zones.keys();
  }

  /** Return the zone on the other side, or null. */
  across(zone: string): string | null {
    return this.zones.get(zone)?.across ?? null;
  }

  /** Return what a symptom reported about `zone` makes the crew check; empty where the map does not say. */
  checksOf(symptom: string, zone: string): string[] {
    return placedChecks(this.symptoms.get(symptom)?.checks ?? [], zone, this);
  }

  /** Return the steps that the component itself says an inspection of it needs open; null where it does not say. */
  inspectAccess(component: string): string[] | null {
    return this.components.get(component)?.inspect_access ?? null;
  }

  /** Return the component's group: its own, unless the package's map puts it in a fixed one. */
  groupOf(component: string): string | null {
    return this.fixed.get(component) ?? this.components.get(component)?.group ?? null;
  }

  /** Say whether damage there needs an inspection: a safety group, or a pair the map does not list. */
  safetyCritical(zone: string, component: string): boolean {
    const group = this.groupOf(component);
    return !this.lists(zone, component) || FIXED_GROUPS.has(group) || this.safety_groups.has(group);
  }

  /**
   * Return a rank that grows with how bad the condition is for this component.
   *
   * `unknown` ranks lowest; a condition that the component's own list lacks ranks above all that it has, in the
   * common order.
   */
  severity(component: string, condition: Condition): number {
    if (condition === "unknown") return 0;
    const own = this.components.get(component)?.conditions.indexOf(condition) ?? -1;
    return own >= 0 ? 1 + own : 1 + CONDITIONS.length + CONDITIONS.indexOf(condition);
  }
}
