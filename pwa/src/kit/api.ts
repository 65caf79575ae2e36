/** The shapes that phone, server and screens share, named; they come from the server's own OpenAPI (`npm run types`). */

import type { components } from "./openapi";

type Schemas = components["schemas"];

/** Worst last; a component of the car map may bring its own order. */
export const CONDITIONS = [
  "unknown",
  "marked",
  "worn",
  "loose",
  "bent",
  "cracked",
  "leaking",
  "flat",
  "seized",
  "broken",
  "missing",
] as const satisfies readonly Schemas["Job"]["condition"][];
export type Condition = Schemas["Job"]["condition"];

/** A fact that one person put down on one device; never changed. `subject`: a report's id or a job's key. */
export type Entry = Schemas["Entry"];
export type Kind = Entry["kind"];
export type EntryOf<K extends Kind> = Extract<Entry, { kind: K }>;
/** `data` by kind. Fields of a report body may be absent in entries made elsewhere: read it with `bodyOf`. */
export type DataOf = { [K in Kind]: EntryOf<K>["data"] };

export type Where = NonNullable<Schemas["ReportFiled"]["where"]>;
export type Cause = NonNullable<Schemas["ReportFiled"]["cause"]>;
/** Clock hour that the hit came from, 12 = ahead. */
export type Direction = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11 | 12 | "below";

export interface ComponentFinding {
  component: string;
  condition: Condition;
}

/** What a report says, every field there; a body with only a zone, or only a symptom, is valid. `km` is into the stage. */
export interface ReportBody {
  stage: string | null;
  km: number | null;
  where: Where;
  zone: string | null;
  direction: Direction | null;
  cause: Cause;
  caused_by: string | null;
  findings: ComponentFinding[];
  symptoms: string[];
  drives: "well" | "poorly" | "no" | null;
  photos: string[];
  note: string;
  /** The page of the crew's pace notes. */
  note_page: number | null;
  /** Where the phone was, once its person has shared it; `km` may rest on it. */
  position: Position | null;
}

/** Degrees of WGS 84, and the radius in metres that the phone gave for its own error. */
export interface Position {
  lat: number;
  lon: number;
  accuracy_m: number | null;
}

/** RFC 9457; the code is the last path part of `type`. `faults` only for bad set-ups. */
export type Problem = Schemas["Problem"];

/** `job` is `zone/component`; money is a string with the currency's decimals. */
export type Job = Schemas["Job"];
export type JobState = Job["state"];
export type InspectionState = Job["inspection"];
export type HoldReason = Schemas["HoldReason"];
export type ReleasedUnseen = Schemas["ReleasedUnseen"];
export type Queue = Schemas["Queue"];
/** Inspections signed as passed that cover less than they name, and why. */
export type Passes = Schemas["Passes"];
export type UncountedPass = Schemas["UncountedPass"];
export type PassReason = Schemas["PassReason"];

export type EventSetup = Schemas["EventSetup"];
/** Absent from a set-up where its reader is shown no prices. */
export type RateTable = NonNullable<EventSetup["rate_table"]>;
/** Managers are told the agreements. */
export type Agreement = NonNullable<EventSetup["agreements"]>[number];
export type PersonOf = Schemas["Person"];
export type Role = PersonOf["roles"][number];
export type CarOf = Schemas["Car"];
export type Stage = Schemas["Stage"];
/** `after` is "" for a service before the first stage. */
export type Service = Schemas["Service"];
/** A place of the road book on a stage, `km` into it; degrees of WGS 84. */
export type RoadPlace = Schemas["RoadPlace"];
export type CarMap = Schemas["CarMap"];
export type Zone = Schemas["Zone"];
/** `conditions`: the component's own order, worst last; empty = the general one. */
export type Component = Schemas["Component"];

/** The plan of one car at one service, as the server answers; a phone reads it with `planOf`. */
export type Plan = Schemas["Plan"];
export type PlanTask = Schemas["PlanTask"];
export type TeamPlan = Schemas["TeamPlan"];
export type LeftOut = Schemas["LeftOut"];

export type Costs = Schemas["Costs"];
export type CostLine = Schemas["CostLine"];
/** What a car's customer is charged: the draft, and what was issued. */
export type Statements = Schemas["Statements"];
export type Statement = Schemas["Statement"];
export type StatementIncident = Schemas["StatementIncident"];
export type StatementLine = Schemas["StatementLine"];
export type Lives = Schemas["Lives"];
export type Life = Schemas["Life"];
export type Season = Schemas["Season"];
export type SeasonEvent = Schemas["SeasonEvent"];
export type SeasonOperation = Schemas["SeasonOperation"];
export type Observed = Schemas["Observed"];
export type ObservedOperation = Schemas["ObservedOperation"];
export type OperationName = Schemas["OperationName"];
export type Accepted = Schemas["Accepted"];
export type Spares = Schemas["Spares"];
export type SparePart = Schemas["SparePart"];

/** A device's public key, and the device with its person. */
export type PublicKey = Schemas["Key"];
export type Device = Schemas["Device"];
export type SecondInvite = Schemas["SecondInvite"];
export type RebuildDone = Schemas["Rebuild"]["done"][number];
/** What a manager may see: an entry that was set aside, an event's files. */
export type Aside = Schemas["Aside"];
export type AsideGroup = Schemas["AsideGroup"];
export type SetupFiles = Schemas["SetupFiles"];

/** Answers to `POST /join`, `POST /sync`, `GET /setup`. */
export type Joined = Schemas["Joined"];
export type Synced = Schemas["SyncAnswer"];
export type Setup = Schemas["Setup"];
