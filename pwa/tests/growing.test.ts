/** What is worked out from a list of entries and brought forward is what is worked out from all of it. */

import { expect, test } from "vitest";
import type { Entry } from "../src/kit/api";
import { bring, type Change, keptFilter, keptGroups, keptUp, placeOf } from "../src/kit/growing";
import { reportsOf } from "../src/report/effective";
import { gapsOf } from "../src/report/gaps";
import type { LocalEntry } from "../src/report/local_entry";
import { entriesOf, idOfHeld, ofCar, ofKind } from "../src/report/lists";
import { lastSeen } from "../src/report/prefill";
import { entriesShown, type RoadInput } from "../src/report/road";
import { headsIn } from "../src/report/heads";
import { withoutVoided } from "../src/report/voided";
import { countedOf } from "../src/report/counted";
import { CAR, entry, EVENT, held, setup } from "./making";

const LISTS = 60;
const STEPS = 25;

/** The same numbers below `below` for the same seed. */
function dice(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

const name = (number: number) => `e${String(number).padStart(5, "0")}`;

/** An entry of any kind that something is worked out from; it speaks of what is there already, or of nothing that is here. */
function anyEntry(roll: (below: number) => number, id: string, there: Entry[]): Entry {
  const of = there[roll(there.length || 1)]?.id ?? "e-unknown";
  const extra = {
    id,
    car: roll(4) ? CAR : "42",
    device: `d-${roll(3)}`,
    seq: roll(30) + 1,
    person: roll(3) ? "p-maru" : "p-jo",
    at: `2026-05-16T13:0${roll(10)}:00+02:00`,
    event: roll(12) ? EVENT : "another-2026",
  };
  const stage = `SS${roll(3) + 1}`;
  const about = { ...extra, subject: of };
  const kinds = [
    () => entry("report.filed", { stage, where: "stage", zone: "front-left", drives: roll(4) ? "well" : "no" }, extra),
    () => entry("report.filed", { stage, where: roll(2) ? "hand-over" : "stage" }, extra),
    () => entry("report.amended", { stage, replaces: [of] }, about),
    () => entry("report.withdrawn", { replaces: [of], reason: "" }, about),
    () => entry("stage.nothing_seen", { stage, how: "from-seat" }, extra),
    () => entry("service.entered", { service: "S1" }, extra),
    () => entry("entry.voided", { voids: [of], reason: "" }, about),
    () => entry("job.deferred", { reason: "" } as never, about),
    () => entry("cost.adjusted", {} as never, about),
  ];
  return (kinds[roll(kinds.length)] as () => Entry)();
}

/** What may happen to a list: new entries, mostly the newest, others sent or heard whole, a few at once. */
function anyChanges(roll: (below: number) => number, list: LocalEntry[], number: number): Change<LocalEntry>[] {
  const changes: Change<LocalEntry>[] = [];
  const was = list[roll(list.length || 1)];
  const what = roll(7);
  if (was && what === 0) return [{ was, now: { ...was, sending: "sent", arrival: number } }];
  if (was && what === 1) return [{ was, now: held(anyEntry(roll, was.entry.id, entriesOf(list))) }];
  if (was && what === 2) return [{ was, now: { ...was, entry: { ...was.entry, sig: `s${number}` } as Entry } }];
  for (let more = roll(3); more >= 0; more--) {
    const id = name(roll(4) ? number * 10 + 5 - more : roll(number * 10));
    if (!list.some((one) => one.entry.id === id)) changes.push({ now: held(anyEntry(roll, id, entriesOf(list))) });
  }
  return changes.filter(({ now }, at) => changes.findIndex((one) => one.now?.entry.id === now?.entry.id) === at);
}

/** One list after the other, each brought forward from the last. */
function* lists(): Generator<LocalEntry[]> {
  for (let seed = 1; seed <= LISTS; seed++) {
    const roll = dice(seed);
    let list: LocalEntry[] = [];
    for (let step = 1; step <= STEPS; step++) {
      list = bring(list, anyChanges(roll, list, step), idOfHeld);
      // What is not asked for at each list is brought forward over several.
      if (roll(3)) yield list;
    }
  }
}

const set_up = setup();
const order = ["SS1", "SS2", "SS3"];

function road(entries: LocalEntry[], roles: RoadInput["roles"]): LocalEntry[] {
  return entriesShown({ roles, person: "p-maru", car: CAR, setup: set_up, entries, now_ms: 0 });
}

const ANSWERS: [string, (list: LocalEntry[]) => unknown][] = [
  ["the entries", entriesOf],
  ["those of a car and of a kind", (list) => ofKind(ofCar(entriesOf(list), CAR), "report.filed")],
  ["those that count", (list) => countedOf(entriesOf(list), CAR, set_up)],
  ["the heads", (list) => headsIn(countedOf(entriesOf(list), CAR, set_up))],
  ["the heads of all cars", (list) => headsIn(entriesOf(list))],
  ["the last stage seen", (list) => lastSeen(countedOf(entriesOf(list), CAR, set_up), order)],
  ["the reports of a car", (list) => reportsOf(list, CAR)],
  ["the reports of all cars", (list) => reportsOf(list)],
  ["the gaps", (list) => gapsOf(entriesOf(list))],
  ["what a manager is shown", (list) => road(list, ["manager"])],
  ["what a co-driver is shown", (list) => road(list, ["co-driver"])],
];

test.each(ANSWERS)("%s: brought forward or worked out from the beginning, the same", (_, answer) => {
  let asked = 0;
  for (const list of lists()) {
    asked++;
    expect(answer(list)).toEqual(answer([...list]));
  }
  expect(asked).toBeGreaterThan(LISTS * 10);
});

test("what counts is what nobody took back, list by list", () => {
  for (const list of lists()) {
    const own = entriesOf(list).filter((one) => one.car === CAR);
    expect(countedOf(entriesOf(list), CAR, set_up)).toEqual(withoutVoided(own, set_up));
  }
});

const numbers = (...all: number[]) => all.map((one) => ({ id: name(one), odd: one % 2 === 1 }));
const idOf = ({ id }: { id: string }) => id;

test("a list is gone through once, and the next is brought forward by what came", () => {
  let gone_through = 0;
  const odd = keptUp<{ id: string; odd: boolean }, string[]>(
    (list) => {
      gone_through += list.length;
      return list.filter((one) => one.odd).map(idOf);
    },
    (before, changes) => [...before, ...changes.flatMap(({ now }) => (now?.odd ? [now.id] : []))],
  );
  let list = numbers(1, 2, 3);
  odd(list);
  for (let next = 4; next < 100; next++) {
    list = bring(list, [{ now: numbers(next)[0] }], idOf);
    odd(list);
  }
  expect(odd(list)).toHaveLength(50);
  expect(gone_through).toBe(3);
});

test("lists long past are let go of: what was last asked for then is worked out again", () => {
  let whole = 0;
  const count = keptUp<{ id: string }, { length: number }>(
    (list) => {
      whole++;
      return { length: list.length };
    },
    (before, changes) => ({ length: before.length + changes.length }),
  );
  let list = numbers(1);
  count(list);
  for (let next = 2; next < 50; next++) list = bring(list, [{ now: numbers(next)[0] }], idOf);
  expect(count(list).length).toBe(49);
  expect(whole).toBe(2);
});

test("what changes nothing of a part leaves the very same part", () => {
  const odd = keptFilter((one: { odd: boolean; id: string }) => one.odd, idOf);
  const parts = keptGroups((one: { odd: boolean; id: string }) => one.odd, idOf);
  const list = numbers(1, 2, 3);
  const [before, group] = [odd(list), parts(list).get(true)];
  const next = bring(list, [{ now: numbers(4)[0] }], idOf);
  expect(odd(next)).toBe(before);
  expect(parts(next).get(true)).toBe(group);
  expect(bring(next, [], idOf)).toBe(next);
});

test("a filter that keeps all and a group that is all are the list itself", () => {
  const some = keptFilter((one: { id: string }) => one.id !== name(9), idOf);
  const one_group = keptGroups((one: { id: string }) => one.id.length, idOf);
  const list = numbers(1, 2);
  const next = bring(list, [{ now: numbers(3)[0] }], idOf);
  for (const each of [list, next]) {
    expect(some(each)).toBe(each);
    expect(one_group(each).get(6)).toBe(each);
  }
  expect(some(bring(next, [{ now: numbers(9)[0] }], idOf))).toEqual(next);
});

test("a place is where the name is, or where it belongs", () => {
  const list = numbers(2, 4, 6);
  expect([1, 2, 3, 4, 6, 7].map((one) => placeOf(list, name(one), idOf))).toEqual([0, 0, 1, 1, 2, 3]);
});
