/**
 * What must hold once nothing is wrong any more, whatever was: (a) to (e) of docs/faults.md, and the two programs that
 * calculate the queue agree byte for byte.
 */

import type { Entry, Setup } from "../../src/kit/api";
import { queueKey } from "../../src/store/answers";
import { CARS, EVENT, type History } from "./history";
import { type Phone, unsigned } from "./phone";
import type { Looked } from "./van";

/** Return what does not hold, a sentence each. */
export function whatIsWrong(history: History): string[] {
  const looked = history.van.look();
  const log = new Map(looked.rows.map(([id, raw]) => [id, unsigned(JSON.parse(raw))]));
  const aside = new Set(looked.set_aside.map(({ raw }) => textOf(raw)));
  return [
    ...looked.problems,
    ...lost(history, log, looked),
    ...history.phones.flatMap((phone) => [
      ...absent(phone, log, aside),
      ...waiting(phone),
      ...otherLog(phone, log),
      ...otherQueues(phone, looked),
    ]),
  ];
}

function textOf(raw: string): string {
  try {
    return unsigned(JSON.parse(raw));
  } catch {
    return raw;
  }
}

/** (a) What was acknowledged is in the log, unless a rebuilt server could not check it, or a manager left it out there. */
function lost({ acknowledged, phones }: History, log: Map<string, string>, looked: Looked): string[] {
  const unheard = ofDevicesUnheardOf(phones, looked);
  const decided = looked.set_aside.filter((one) => one.left_out);
  const leftOut = new Set(decided.map(({ raw }) => idOf(raw)));
  const written = new Map(phones.flatMap((one) => [...one.written]));
  return [...acknowledged].flatMap((id) => {
    if (unheard.has(id) || leftOut.has(id)) return [];
    if (!log.has(id)) return [`(a) ${id} was acknowledged and is lost`];
    return (written.get(id) ?? log.get(id)) === log.get(id) ? [] : [`(a) ${id} has other bytes than were written`];
  });
}

/** The id that a piece names, of which not each is an entry. */
const idOf = (raw: string): string | null => /"id":"([^"]+)"/.exec(raw)?.[1] ?? null;

/** A rebuilt server can't check what a device wrote that joined after a manager's phone last heard of anybody. */
function ofDevicesUnheardOf(phones: Phone[], { set_aside }: Looked): Set<string> {
  const managers = phones.filter((one) => one.person === "p-vera");
  const known = managers.flatMap((one) => (one.disk.answer("setup") as Setup | undefined)?.devices ?? []);
  const names = new Set(known.map((one) => one.device));
  const unknown = set_aside.filter(({ code }) => code === "unknown-device").map(({ raw }) => JSON.parse(raw) as Entry);
  return new Set(unknown.filter((one) => !names.has(one.device)).map((one) => one.id));
}

/** (b) What was written on a phone is in the log, or set aside and said to be. */
function absent(phone: Phone, log: Map<string, string>, aside: Set<string>): string[] {
  const held = new Map(phone.disk.entries().map((one) => [one.id, one]));
  return [...phone.written].flatMap(([id, text]) => {
    const { sending } = held.get(id) ?? { sending: "gone" };
    if (sending === "sent" && log.get(id) === text) return [];
    if (sending === "attention" && aside.has(text)) return [];
    return [`(b) ${id} of ${phone.name} is ${sending}, log: ${log.has(id)}, set aside: ${aside.has(text)}`];
  });
}

/** (e) Outboxes are empty. */
function waiting(phone: Phone): string[] {
  const count = phone.disk.entries().filter((one) => one.sending === "waiting").length;
  return count > 0 ? [`(e) ${count} entries still wait on ${phone.name}`] : [];
}

/**
 * (d) Every phone holds the whole log, and nothing that it believes to be of it besides. What managers alone are shown
 * stands for itself on others' phones, and on no manager's.
 */
function otherLog(phone: Phone, log: Map<string, string>): string[] {
  const here = phone.disk.entries().filter((one) => one.sending === "sent");
  const withheld = phone.disk
    .entries()
    .filter((one) => one.sending === "withheld" && isManagers(phone, log.get(one.id)));
  const ids = new Set([...here, ...withheld].map((one) => one.id));
  const lacks = [...log.keys()].filter((id) => !ids.has(id));
  const more = [...ids].filter((id) => !log.has(id));
  const other = here.filter((one) => log.has(one.id) && log.get(one.id) !== unsigned(one.entry)).map((one) => one.id);
  const differs = { lacks, more, other };
  return lacks.length + more.length + other.length > 0
    ? [`(d) ${phone.name} holds another log: ${JSON.stringify(differs)}`]
    : [];
}

const isManagers = ({ person }: Phone, text = "{}") =>
  person !== "p-vera" && /^(cost|charge|statement)\./.test((JSON.parse(text) as Partial<Entry>).kind ?? "");

/** (d) Every phone works out the server's queue, and shows it. */
function otherQueues(phone: Phone, looked: Looked): string[] {
  const { state } = phone;
  const shown = state?.advice && state.car ? state.queue?.answer.hash : undefined;
  const wrong = CARS.flatMap((car) => {
    const { queue, set_aside } = looked.queues[car] as Looked["queues"][string];
    const own = phone.ownQueue(EVENT, car, set_aside);
    const heard = phone.disk.answer(queueKey(EVENT, car)) as { hash: string } | undefined;
    const right = (JSON.parse(queue) as { hash: string }).hash;
    return [
      ...(own === queue ? [] : [`(d) car ${car}: ${phone.name} works out ${firstDifference(own, queue)}`]),
      ...(car !== state?.car || !shown || shown === right
        ? []
        : [`(d) car ${car}: ${phone.name} shows another queue (held: ${heard?.hash === right})`]),
    ];
  });
  if (state?.advice && state.car && !shown) wrong.push(`(d) ${phone.name} shows no queue`);
  return wrong;
}

function firstDifference(own: string, right: string): string {
  const [ours, theirs] = [JSON.parse(own), JSON.parse(right)] as Record<string, unknown>[];
  for (const name of Object.keys(theirs ?? {})) {
    const [one, other] = [JSON.stringify(ours?.[name]), JSON.stringify(theirs?.[name])];
    if (name !== "hash" && one !== other) return `${name}: ${one?.slice(0, 300)} in place of ${other?.slice(0, 300)}`;
  }
  return "other bytes of the same values";
}
