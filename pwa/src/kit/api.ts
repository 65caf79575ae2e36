/** The shapes that phone, server and screens share, by the server's own names. */

export type Role = "driver" | "co-driver" | "mechanic" | "inspector" | "manager";

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
] as const;
export type Condition = (typeof CONDITIONS)[number];

export type Where =
  | "stage"
  | "road-section"
  | "service"
  | "recce"
  | "shakedown"
  | "regroup"
  | "recovery"
  | "workshop"
  | "hand-over"
  | "unknown";

export type Cause =
  | "stone"
  | "bank"
  | "ditch"
  | "tree"
  | "landing"
  | "water"
  | "roll"
  | "car"
  | "recovery"
  | "wear"
  | "unknown";

/** Clock hour that the hit came from, 12 = ahead. */
export type Direction = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9 | 10 | 11 | 12 | "below";

export interface ComponentFinding {
  component: string;
  condition: Condition;
}

/** What a report says; a body with only a zone, or only a symptom, is valid. `km` is into the stage. */
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
}

export interface PartUsed {
  part: string;
  qty: number;
}

export interface CheckDone {
  check: string;
  ok: boolean;
}

/** `covers` names the entries that the person had seen when looking. */
export interface Inspection {
  covers?: string[];
  checks?: CheckDone[];
  until?: string | null;
  shown_to?: string | null;
  official_said?: string | null;
  note?: string | null;
}

/** `data` by kind. Fields of a report body may be absent in entries made elsewhere: read it with `bodyOf`. */
export interface DataOf {
  "report.filed": Partial<ReportBody>;
  "report.amended": Partial<ReportBody> & { replaces: string[] };
  "report.withdrawn": { replaces: string[]; reason?: string };
  "stage.nothing_seen": { stage: string; how: "from-seat" | "walked-round" };
  /** `official_time` is RFC 3339, or a clock time HH:MM of the day of `at`. */
  "service.entered": { service: string; official_time?: string | null };
  "service.left": { service: string; official_time?: string | null };
  "driver.changed": { driver: string };
  "car.retired": { stage?: string | null; ready_by?: string | null };
  "car.restarts": { stage?: string | null; ready_by?: string | null };
  "reading.taken": { reading: string; value: number | string; unit?: string; place?: string | null };
  "incident.grouped": { reports: string[]; title?: string };
  "photo.linked": { photo: string; caption?: string | null };
  "job.started": Record<string, never>;
  "job.stopped": { ends?: string[] };
  "job.finished": {
    covers?: string[];
    ends?: string[];
    action?: string;
    minutes?: number | null;
    mechanics?: number | null;
    parts?: PartUsed[];
    repairers?: string[];
    temporary?: boolean;
    service?: string | null;
  };
  "job.deferred": { covers?: string[]; to?: "next-service" | "road"; reason?: string };
  "inspection.passed": Inspection;
  "inspection.failed": Inspection;
  "car.released": { service: string; covers?: string[]; reason?: string | null };
  "cost.adjusted": { line: string; amount: string | number; reason?: string };
  "entry.voided": { voids: string[]; reason?: string };
}
export type Kind = keyof DataOf;

/** A fact that one person put down on one device; never changed. `subject`: a report's id or a job's key. */
export interface EntryOf<K extends Kind> {
  id: string;
  v: 1;
  kind: K;
  event: string;
  car: string;
  subject: string | null;
  /** RFC 3339 with offset, on the device's own clock. */
  at: string;
  /** When it was said or written on paper, if typed in later. */
  said_at?: string | null;
  device: string;
  /** The device's own counter: 1, 2, 3 … */
  seq: number;
  person: string;
  data: DataOf[K];
}
export type Entry = { [K in Kind]: EntryOf<K> }[Kind];

/** RFC 9457; the code is the last path part of `type`. `faults` only for bad set-ups. */
export interface Problem {
  type: string;
  title: string;
  status: number;
  detail: string;
  field?: string;
  faults?: { file: string; row: number | null; column: string | null; what: string }[];
}

export type JobState = "open" | "started" | "patched" | "deferred" | "accepted" | "finished";
export type InspectionState = "not-needed" | "needed" | "failed" | "passed";

export interface Estimate {
  minutes_best: number;
  minutes_likely: number;
  minutes_worst: number;
  minutes_expected: number;
  mechanics: number;
  access: string[];
  /** Money is a string with the currency's decimals. */
  labour: string;
  parts: { part: string; qty: number; unit_cost: string; short: number }[];
  parts_cost: string;
  total: string;
  currency: string;
}

export interface Job {
  /** `zone/component`. */
  job: string;
  zone: string;
  component: string;
  group: string | null;
  safety_critical: boolean;
  must_do: boolean;
  condition: Condition;
  action: string;
  no_rate: boolean;
  knock_on: boolean;
  retracted: boolean;
  state: JobState;
  inspection: InspectionState;
  findings: string[];
  uncovered: string[];
  reports: string[];
  photos: string[];
  two_versions: boolean;
  estimate: Estimate;
}

export interface HoldReason {
  job: string | null;
  needs: "review" | "re-inspection" | "official" | "inspection";
  entries: string[];
}

export interface ReleasedUnseen {
  released: string;
  service: string;
  job: string;
  entries: string[];
}

export type Release = "hold" | "nothing-open";

export interface Queue {
  event: string;
  car: string;
  entries: number;
  rates: string;
  hash: string;
  release: Release;
  hold_reasons: HoldReason[];
  released_unseen: ReleasedUnseen[];
  jobs: Job[];
  totals: { mechanic_minutes: number; access_minutes: number; labour: string; parts_cost: string; total: string };
}

export interface CarOf {
  car: string;
  label: string;
}

export interface PersonOf {
  person: string;
  name: string;
  roles: Role[];
  skills: string[];
}

export interface Stage {
  stage: string;
  km: number;
}

export interface Service {
  service: string;
  after: string | null;
  kind: string;
  arrive: string | null;
  minutes: number;
  in_and_out_minutes: number;
}

export interface Regulations {
  late_penalty_s_per_minute: number;
  early_penalty_s_per_minute: number;
  late_limit_minutes: number;
  total_late_limit_minutes: number;
  advice_on_road: boolean;
}

export interface Routine {
  task: string;
  services: string[];
  /** Best, likely, worst. */
  minutes: [number, number, number];
  mechanics: number;
  zone: string;
  access: string[];
  must_do: boolean;
}

export interface Zone {
  label: string;
  kind: "corner" | "end" | "side" | "roof" | "underside" | "engine" | "cabin" | "boot";
  people: number;
  components: string[];
}

export interface Component {
  label: string;
  group: string | null;
  /** The component's own order, worst last; empty = the general one. */
  conditions: Condition[];
  sealed: boolean;
}

export interface CarMap {
  zones: Record<string, Zone>;
  components: Record<string, Component>;
  symptoms: Record<string, { label: string; checks: string[]; stop?: boolean | string | null }>;
  knock_on: { component: string; conditions: Condition[]; same_zone: string[]; also: string[] }[];
  safety_groups: string[];
}

export interface EventSetup {
  event: string;
  name: string;
  timezone: string;
  currency: string;
  cars: CarOf[];
  people: PersonOf[];
  stages: Stage[];
  services: Service[];
  regulations: Regulations;
  routine: Routine[];
  car_map: CarMap;
  rates: string;
  parts: { part: string; description: string }[];
}

export interface CostEstimate {
  minutes: number;
  mechanics: number;
  labour: string;
  parts_cost: string;
  total: string;
}

export interface CostActual {
  minutes: number | null;
  mechanics: number | null;
  labour: string | null;
  parts: { part: string; qty: number; unit_cost: string | null }[];
  parts_cost: string;
  total: string;
}

export interface CostLine {
  line: string;
  kind: "repair" | "open" | "access";
  car: string;
  job: string | null;
  zone: string | null;
  component: string | null;
  step: string | null;
  stage: string | null;
  service: string | null;
  action: string | null;
  condition: Condition | null;
  entries: string[];
  estimate: CostEstimate;
  actual: CostActual | null;
}

export interface Costs {
  event: string;
  car: string | null;
  rates: string;
  currency: string;
  tax_percent: number | string;
  lines: CostLine[];
  adjustments: {
    entry: string;
    line: string;
    car: string;
    amount: string;
    reason: string;
    person: string;
    counts: boolean;
  }[];
  by_stage: { stage: string | null; estimate: string; actual: string }[];
  by_zone: { zone: string | null; estimate: string; actual: string }[];
  totals: { estimate: string; actual: string; adjustments: string; before_tax: string; tax: string; total: string };
}

/** Answer to `POST /join`. */
export interface Joined {
  token: string;
  device: string;
  person: string;
  name: string;
  roles: Role[];
  events: string[];
}

/** Answer to `POST /sync`. */
export interface Synced {
  log_id: string;
  cursor: number;
  accepted: string[];
  rejected: { id: string | null; problem: Problem }[];
  entries: Entry[];
  more: boolean;
}

/** Answer to `GET /setup`. */
export interface Setup {
  log_id: string;
  events: EventSetup[];
}
