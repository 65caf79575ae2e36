/** Whose queue is shown: the server's where it is fresh, else this phone's own; and when it is worked out here. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { openLocalQueue, type LocalWanted } from "../src/flow/local_queue";
import type { QueueAsk, QueueReply } from "../src/kit/queue_ask";
import type { LocalEntry } from "../src/report/local_entry";
import { type LocalQueue, localParts, shownQueue, type QueueSourceInput } from "../src/report/queue_source";
import { AT, AT_MS, CAR, entry, held, job, queue, setup } from "./making";

const hit = (id: string, car = CAR) => entry("report.filed", { zone: "front-left" }, { id, car });
const known = held(hit("a"), { arrival: 1 });
const fresh = held(hit("b"), { mine: true, sending: "waiting", arrival: 2 });
const JOBS = [job("front-left/unknown", { findings: ["a"] })];

function parts(change: Partial<QueueSourceInput> = {}) {
  const answer = queue({ entries: 1, jobs: JOBS, rates: "r" }, { arrivals: 1 });
  return localParts({ car: CAR, queue: answer, entries: [known], rates: "r", unreachable: false, ...change });
}
const ids = (made: ReturnType<typeof parts>) => made?.entries.map((one) => one.id);

test("a server that can be reached and knows all entries here: its answer is fresh", () => {
  expect(parts()).toBeNull();
});

test("an entry that the answer does not know, of any car, makes it stale", () => {
  expect(ids(parts({ entries: [known, fresh] }))).toEqual(["a", "b"]);
  expect(ids(parts({ entries: [known, held(hit("c", "42"), { arrival: 2 })] }))).toEqual(["a", "c"]);
});

test("so do a server out of reach and a set-up with another rate table", () => {
  expect(ids(parts({ unreachable: true }))).toEqual(["a"]);
  expect(ids(parts({ rates: "another" }))).toEqual(["a"]);
});

test("what was worked out says up to which entry of this phone", () => {
  expect(parts({ entries: [known, fresh] })?.arrivals).toBe(2);
  const asked_later = queue({ entries: 1, jobs: JOBS, rates: "r" }, { arrivals: 9 });
  expect(parts({ queue: asked_later, unreachable: true })?.arrivals).toBe(9);
});

test("never heard: on its way while the server can be reached, else worked out of what is here, if anything is", () => {
  expect(parts({ queue: null })).toBeNull();
  expect(ids(parts({ queue: null, unreachable: true }))).toEqual(["a"]);
  expect(parts({ queue: null, unreachable: true, entries: [held(hit("c", "42"))] })).toBeNull();
});

test("a phone that lacks entries of the answer does not work it out: a job could be missing", () => {
  const more = queue({ entries: 2, jobs: JOBS, rates: "r" }, { arrivals: 1 });
  expect(parts({ unreachable: true, queue: more })).toBeNull();
  expect(parts({ queue: more, entries: [known, fresh] })).toBeNull();
  const named = queue({ entries: 1, jobs: [job("x/y", { uncovered: ["gone"] })], rates: "r" }, { arrivals: 1 });
  expect(parts({ unreachable: true, queue: named })).toBeNull();
});

test("the server's last word on what it set aside stands, with what it refused of this car since", () => {
  const review = [{ job: null, needs: "review" as const, entries: ["z"] }];
  const answer = queue({ entries: 1, jobs: JOBS, rates: "r", hold_reasons: review }, { arrivals: 1 });
  const refused = (id: string, car: string, arrival: number): LocalEntry =>
    held(hit(id, car), {
      mine: true,
      sending: "attention",
      problem: { type: "", title: "", status: 422, detail: "" },
      arrival,
    });
  const entries = [known, refused("m", CAR, 2), refused("n", "42", 2), refused("o", CAR, 1)];
  const made = parts({ queue: answer, entries });
  expect(made?.set_aside).toEqual(["m", "z"]);
  expect(ids(made)).toEqual(["a"]);
});

const own = (hash: string, arrivals: number): LocalQueue => ({
  answer: queue({ hash }).answer,
  worked_out_at: "2026-05-16T13:10:00Z",
  arrivals,
});

test("the phone's own is shown in place of an older answer, and says so", () => {
  const server = queue({ hash: "s" }, { arrivals: 1 });
  expect(shownQueue(server, null)).toEqual({ queue: server, queue_from: "server" });
  expect(shownQueue(server, own("p", 2))).toMatchObject({ queue: { arrivals: 2 }, queue_from: "phone" });
  expect(shownQueue(null, own("p", 2)).queue_from).toBe("phone");
});

test("the same to the byte is the server's; and one worked out before the server was asked is not shown", () => {
  const server = queue({ hash: "s" }, { arrivals: 3 });
  expect(shownQueue(server, own("s", 3))).toEqual({ queue: server, queue_from: "server" });
  expect(shownQueue(server, own("p", 2))).toEqual({ queue: server, queue_from: "server" });
});

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

function keeper() {
  const asked: string[] = [];
  const news: LocalQueue[] = [];
  const replies: ((reply: QueueReply) => void)[] = [];
  const workOut = (ask: QueueAsk) => {
    asked.push(ask.car);
    return new Promise<QueueReply>((resolve) => replies.push(resolve));
  };
  const { follow } = openLocalQueue(
    workOut,
    () => AT_MS,
    (one) => news.push(one),
  );
  const answer = async (reply: QueueReply = { queue: queue().answer }) => {
    replies.shift()?.(reply);
    await vi.advanceTimersByTimeAsync(0);
  };
  return { asked, news, follow, answer };
}

function wanted(key: string, patience_ms = 0): LocalWanted {
  const ask = { setup: setup(), entries: [], car: key, set_aside: [] };
  return { key, ask, arrivals: 7, patience_ms };
}

test("out of reach it is worked out at once, and once as long as nothing changes", async () => {
  const { asked, news, follow, answer } = keeper();
  follow(wanted("a"));
  await answer();
  follow(wanted("a"));
  expect(asked).toEqual(["a"]);
  expect(news).toEqual([{ answer: queue().answer, arrivals: 7, worked_out_at: new Date(AT).toISOString() }]);
});

test("while the server can be reached it has some time to answer first", async () => {
  const { asked, follow } = keeper();
  follow(wanted("a", 1000));
  follow(null);
  await vi.advanceTimersByTimeAsync(2000);
  expect(asked).toEqual([]);
  follow(wanted("b", 1000));
  await vi.advanceTimersByTimeAsync(999);
  expect(asked).toEqual([]);
  follow(wanted("c", 1000));
  await vi.advanceTimersByTimeAsync(1);
  expect(asked).toEqual(["c"]);
});

test("one at a time; of what was wanted meanwhile only the last", async () => {
  const { asked, follow, answer } = keeper();
  for (const key of ["a", "b", "c"]) follow(wanted(key));
  expect(asked).toEqual(["a"]);
  await answer();
  await answer();
  expect(asked).toEqual(["a", "c"]);
});

test("what can't be worked out is no news, and not tried again before something changes", async () => {
  const warned = vi.spyOn(console, "warn").mockImplementation(() => {});
  const { asked, news, follow, answer } = keeper();
  follow(wanted("a"));
  await answer({ failed: "no worker" });
  follow(wanted("a"));
  expect(news).toEqual([]);
  expect(asked).toEqual(["a"]);
  expect(warned).toHaveBeenCalledOnce();
});
