/** Short ways for tests to make entries, set-ups and phones. */

import "fake-indexeddb/auto";
import type { DataOf, Entry, EventSetup, Job, Kind, Queue, Role } from "../src/kit/api";
import type { Cached, LocalEntry } from "../src/report/local_entry";
import { type Db, type IdentityRecord, openStore } from "../src/store/db";
import type { NewEntry } from "../src/store/entries";
import { keepIdentity } from "../src/store/identities";

export const EVENT = "invented-2026";
export const CAR = "41";
export const AT = "2026-05-16T13:00:00+02:00";
export const AT_MS = Date.parse(AT);

interface Extra {
  id?: string;
  subject?: string | null;
  at?: string;
  person?: string;
  device?: string;
  car?: string;
  seq?: number;
}

let made = 0;

export function entry<K extends Kind>(kind: K, data: DataOf[K], extra: Extra = {}): Entry {
  const id = extra.id ?? `e${String(++made).padStart(4, "0")}`;
  const head = { id, v: 1, kind, event: EVENT, car: CAR, subject: null, at: AT, device: "d-1", seq: made };
  const subject = kind === "report.filed" ? id : (extra.subject ?? null);
  return { ...head, person: "p-maru", data, ...extra, subject, id } as unknown as Entry;
}

export function held(one: Entry, change: Partial<LocalEntry> = {}): LocalEntry {
  return { entry: one, mine: false, sending: "sent", problem: null, held_at: AT, arrival: 1, ...change };
}

export function heldAll(...entries: Entry[]): LocalEntry[] {
  return entries.map((one) => held(one));
}

export function job(key: string, change: Partial<Job> = {}): Job {
  const [zone = "", component = ""] = key.split("/");
  const no_estimate = {} as Job["estimate"];
  return {
    job: key,
    zone,
    component,
    group: null,
    safety_critical: true,
    must_do: true,
    condition: "bent",
    action: "replace",
    no_rate: false,
    knock_on: false,
    retracted: false,
    state: "open",
    inspection: "needed",
    findings: [],
    uncovered: [],
    reports: [],
    photos: [],
    two_versions: false,
    estimate: no_estimate,
    ...change,
  };
}

export function queue(change: Partial<Queue> = {}, heard: Partial<Cached<Queue>> = {}): Cached<Queue> {
  const answer: Queue = {
    event: EVENT,
    car: CAR,
    entries: 0,
    rates: "",
    hash: "",
    release: "nothing-open",
    hold_reasons: [],
    released_unseen: [],
    jobs: [],
    totals: {} as Queue["totals"],
    ...change,
  };
  return { answer, heard_at: AT, arrivals: 1, ...heard };
}

export function setup(change: Partial<EventSetup> = {}, advice_on_road = false): EventSetup {
  const service = { kind: "midday", minutes: 30, in_and_out_minutes: 7, parc_ferme_after: false };
  const person = (name: string, roles: Role[]) => ({ person: name, name, roles, skills: [] });
  return {
    event: EVENT,
    name: "Invented",
    timezone: "Europe/Berlin",
    kind: "rally",
    emergency: "",
    currency: "EUR",
    cars: [{ car: CAR, label: "41" }],
    people: [person("p-maru", ["co-driver"]), person("p-jo", ["mechanic"]), person("p-boss", ["manager"])],
    stages: ["SS1", "SS2", "SS3", "SS4", "SS5", "SS6"].map((stage) => ({ stage, km: 10, start: null })),
    places: [],
    looks: {},
    services: [
      { ...service, service: "A", after: "SS2", arrive: "2026-05-16T09:30:00+02:00" },
      { ...service, service: "B", after: "SS4", arrive: "2026-05-16T13:02:00+02:00" },
    ],
    regulations: {
      late_penalty_s_per_minute: 10,
      early_penalty_s_per_minute: 60,
      late_limit_minutes: 15,
      total_late_limit_minutes: 30,
      advice_on_road,
    },
    routine: [],
    car_map: {
      zones: {},
      components: {},
      symptoms: { "long-pedal": { label: "", checks: ["front-left/brake-hose", "cabin/master-cylinder"], stop: "" } },
      knock_on: [],
      safety_groups: [],
      fixed: {},
    },
    rates: "",
    rate_table: {
      version: "",
      currency: "EUR",
      decimals: 2,
      labour_per_hour: "60",
      inspect_minutes: ["1", "2", "3"],
      assess_minutes: ["6", "6", "6"],
      inspect_minutes_by_group: {},
      operations: [],
      access: [],
      parts: [],
    },
    van: {},
    agreements: [],
    dated: [],
    trust: { signatures: "off" },
    parts: [],
    ...change,
  };
}

let stores = 0;

export function phone(name = `phone-${++stores}`): Promise<Db> {
  return openStore(name);
}

export async function joined(db: Db, person: string, device: string, change: Partial<IdentityRecord> = {}) {
  const record: IdentityRecord = {
    device,
    person,
    name: person,
    roles: ["co-driver"],
    events: [EVENT],
    token: `token of ${device}`,
    code_hash: device,
    joined_at: AT,
    refused: false,
    ...change,
  };
  await keepIdentity(db, record);
  return record;
}

export function draft(id: string, device = "d-1", person = "p-maru", photos: string[] = []): NewEntry {
  const { seq: _, ...rest } = entry("report.filed", { zone: "front-left", photos }, { id, device, person });
  return rest as NewEntry;
}

export function ids(entries: readonly { id: string }[]): string[] {
  return entries.map((one) => one.id);
}
