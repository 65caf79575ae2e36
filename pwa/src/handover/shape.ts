/** Whether what was handed over is an entry that this app can read: nothing else may reach the store or the screens. */

import { CONDITIONS, type Entry, type Kind } from "../kit/api";

/** As the server has it. */
const MOST_BYTES = 16 * 1024;
const UUID7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const TIME = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/;
const JOB = /^[^/]+\/[^/]+$/;
const SHA256 = /^[0-9a-f]{64}$/;

type Check = (value: unknown) => boolean;

const text: Check = (value) => typeof value === "string" && value.length <= 4000;
const name: Check = (value) => text(value) && value !== "";
const yesNo: Check = (value) => typeof value === "boolean";
const photo: Check = (value) => typeof value === "string" && SHA256.test(value);
const word =
  (...words: readonly unknown[]): Check =>
  (value) =>
    words.includes(value);
const list =
  (item: Check): Check =>
  (value) =>
    Array.isArray(value) && value.every(item);
const names = list(name);
/** A number, or one as a text: the server takes both where it calculates in decimals. */
const decimal: Check = (value) =>
  (typeof value === "number" && Number.isFinite(value)) ||
  (typeof value === "string" && /^-?\d{1,12}(\.\d{1,12})?$/.test(value));
const km: Check = (value) => typeof value === "number" && value >= 0 && value <= 1000;
const direction: Check = (value) =>
  value === "below" || (Number.isInteger(value) && Number(value) >= 1 && Number(value) <= 12);
const whole: Check = (value) => Number.isInteger(value) && Number(value) >= 0 && Number(value) <= 1000;

type Fields = Record<string, Check>;

/** Absent and null mean the same, unknown fields are let through; `must` are never absent. */
const object =
  (fields: Fields, must: string[] = []): Check =>
  (value) =>
    isObject(value) &&
    must.every((key) => value[key] !== undefined && value[key] !== null) &&
    Object.entries(fields).every(
      ([key, check]) => value[key] === undefined || value[key] === null || check(value[key]),
    );

const WHERE = [
  "stage",
  "road-section",
  "service",
  "recce",
  "shakedown",
  "regroup",
  "recovery",
  "workshop",
  "hand-over",
];
const CAUSE = ["stone", "bank", "ditch", "tree", "landing", "water", "roll", "car", "recovery", "wear", "unknown"];
const BODY: Fields = {
  stage: name,
  km,
  where: word(...WHERE, "unknown"),
  zone: name,
  direction,
  cause: word(...CAUSE),
  caused_by: name,
  findings: list(object({ component: name, condition: word(...CONDITIONS) }, ["component"])),
  symptoms: names,
  drives: word("well", "poorly", "no"),
  photos: list(photo),
  note: text,
  note_page: whole,
  position: object({ lat: decimal, lon: decimal, accuracy_m: decimal }, ["lat", "lon"]),
};
const LOOK = object({
  covers: names,
  checks: list(object({ check: text, ok: yesNo, why: text }, ["check"])),
  until: name,
  shown_to: text,
  official_said: text,
  note: text,
});
const SERVICE = object({ service: name, official_time: text }, ["service"]);
const RESTARTS: Fields = { stage: name, ready_by: text };
const RETIRED: Fields = {
  ...RESTARTS,
  km,
  drives: word("well", "poorly", "no"),
  cause: name,
  recovered_by: text,
  restart: word("yes", "no", "unknown"),
};
const ANSWERED = object({ ask: name, place: text, entries: names, ok: yesNo, by: name, why: text }, ["ask"]);
const FINISHED: Fields = {
  covers: names,
  ends: names,
  action: text,
  minutes: decimal,
  mechanics: whole,
  parts: list(object({ part: name, qty: decimal }, ["part"])),
  repairers: names,
  temporary: yesNo,
  service: name,
};

const depths = list(object({ place: name, mm: decimal }, ["place", "mm"]));
const WALK: Fields = {
  walk: word("out", "return"),
  agreement: name,
  odometer_km: decimal,
  fuel_percent: (value) => Number.isInteger(value) && Number(value) >= 0 && Number(value) <= 100,
  tread: depths,
  pads: depths,
  fluids: list(object({ fluid: name, level: word("full", "between", "low", "empty") }, ["fluid", "level"])),
  kit: list(object({ item: name, aboard: yesNo }, ["item", "aboard"])),
  photos: list(object({ view: name, photo, why_none: text }, ["view"])),
  marks: names,
  signed: list(
    object({ side: word("team", "customer"), name: text, how: word("on-screen", "not-present", "refused"), photo }, [
      "side",
      "name",
    ]),
  ),
  note: text,
  needs_cleaning: yesNo,
  replaces: names,
};
const INCIDENT: Fields = {
  reports: names,
  title: text,
  others_involved: yesNo,
  others: text,
  property_hit: text,
  injured: text,
  reported_to: text,
  replaces: names,
};
const CHARGE: Fields = {
  charge: word("damage", "wear", "misuse", "not-charged"),
  incident: name,
  worn: list(object({ part: name, used_percent: decimal }, ["part", "used_percent"])),
  reason: text,
  replaces: names,
};
const ADDED: Fields = {
  charge: word("fuel", "kit", "cleaning", "lateness", "recovery", "property", "other"),
  says: text,
  qty: decimal,
  unit: text,
  price: text,
  tax_percent: decimal,
  reason: text,
  photos: list(photo),
  replaces: names,
};

const DATA: Record<Kind, Check> = {
  "report.filed": object(BODY),
  "report.amended": object({ ...BODY, replaces: names }, ["replaces"]),
  "report.withdrawn": object({ replaces: names, reason: text }, ["replaces"]),
  "stage.nothing_seen": object({ stage: name, how: word("from-seat", "walked-round") }, ["stage"]),
  "service.entered": SERVICE,
  "service.left": SERVICE,
  "driver.changed": object({ driver: name }, ["driver"]),
  "control.entered": object({ control: word("control-zone", "regroup", "parc-ferme"), official_time: text }, [
    "control",
  ]),
  "control.left": object({ ends: names, official_time: text }, ["ends"]),
  "driver.asked": object(
    { answers: list(object({ question: name, as_before: yesNo }, ["question", "as_before"])), service: name },
    ["answers"],
  ),
  "car.retired": object(RETIRED),
  "car.restarts": object(RESTARTS),
  "reading.taken": object({ reading: name, unit: text, place: text }, ["reading", "value"]),
  "incident.grouped": object(INCIDENT, ["reports"]),
  "photo.linked": object({ photo, caption: text }, ["photo"]),
  "voice.linked": object({ voice: photo, seconds: decimal }, ["voice"]),
  "job.started": object({}),
  "job.stopped": object({ ends: names }),
  "job.finished": object(FINISHED),
  "job.deferred": object({ covers: names, to: word("next-service", "road"), reason: text }),
  "inspection.passed": LOOK,
  "inspection.failed": LOOK,
  "car.released": object({ service: name, covers: names, reason: text, answers: list(ANSWERED) }, ["service"]),
  "task.started": object({ service: name }, ["service"]),
  "task.finished": object({ service: name }, ["service"]),
  "briefing.acknowledged": object({ service: name, queue: text }, ["service"]),
  "cost.adjusted": object({ line: name, amount: decimal, reason: text }, ["line", "amount"]),
  "handover.signed": object(WALK, ["walk"]),
  "charge.decided": object(CHARGE),
  "charge.added": object(ADDED, ["charge", "says", "price"]),
  "part.fitted": object({ serial: text, rebuilt: yesNo, since: text, note: text }),
  "part.retained": object({ tag: name, shelf: text, part: name }, ["tag"]),
  "statement.issued": object({ number: whole, supplements: whole, agreement: name, content: isObject }, [
    "number",
    "agreement",
    "content",
  ]),
  "statement.line_settled": object(
    { line: name, standing: word("agreed", "disputed", "withdrawn"), reason: text, replaces: names },
    ["line", "standing"],
  ),
  "entry.voided": object({ voids: names, reason: text }, ["voids"]),
};

const HEAD = object({ event: name, car: name, device: name, person: name, subject: text, sig: text }, [
  "event",
  "car",
  "device",
  "person",
  "data",
]);

/** Return the entry that a value is, or null. Its data is checked for its kind, so that the screens can show it. */
export function entryOf(value: unknown): Entry | null {
  if (!HEAD(value) || !isObject(value) || value.v !== 1) return null;
  const { id, at, kind, seq, data } = value;
  if (typeof id !== "string" || !UUID7.test(id) || typeof at !== "string" || !TIME.test(at)) return null;
  if (!Number.isSafeInteger(seq) || Number(seq) < 1 || typeof kind !== "string" || !Object.hasOwn(DATA, kind))
    return null;
  if (!DATA[kind as Kind](data) || !isAbout(kind, value.subject, id)) return null;
  return new TextEncoder().encode(JSON.stringify(value)).length <= MOST_BYTES ? (value as unknown as Entry) : null;
}

function isAbout(kind: string, subject: unknown, id: string): boolean {
  if (kind === "report.filed") return subject === id;
  if (kind.startsWith("report.")) return typeof subject === "string" && subject !== "";
  if (/^(job|inspection)\./.test(kind)) return typeof subject === "string" && JOB.test(subject);
  return true;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
