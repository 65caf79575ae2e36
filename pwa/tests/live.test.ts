/** The live stream: text/event-stream as WHATWG HTML 9.2 writes it, over a fetch that can be cut. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type Live, openLive } from "../src/sync/live";
import type { AsOf } from "../src/store/current";
import type { Fetch } from "../src/sync/wire";

let hidden = false;
let heard = 0;
let told: (AsOf | null)[] = [];
let opened = 0;
let refused = 0;
let streams: ReadableStreamDefaultController<Uint8Array>[] = [];
let answer: () => Response = () => streamed();

function streamed(): Response {
  const body = new ReadableStream<Uint8Array>({ start: (controller) => void streams.push(controller) });
  return new Response(body, { headers: { "Content-Type": "text/event-stream; charset=utf-8" } });
}

const fetcher: Fetch = async (_url, init) => {
  opened++;
  const response = answer();
  const [controller] = streams.slice(-1);
  init.signal?.addEventListener("abort", () => controller?.error(new DOMException("aborted", "AbortError")));
  return response;
};

function live(token: string | null = "t"): Live {
  const onChanged = (news: AsOf | null) => {
    heard++;
    told.push(news);
  };
  return openLive({
    fetch: fetcher,
    token: async () => token,
    onChanged,
    onRefused: () => {
      refused++;
    },
    isHidden: () => hidden,
    locks: Promise.resolve(null),
  });
}

const send = (text: string) => streams.at(-1)?.enqueue(new TextEncoder().encode(text));

async function pass(ms = 0) {
  for (let i = 0; i < 5; i++) await new Promise((resolve) => setImmediate(resolve));
  await vi.advanceTimersByTimeAsync(ms);
  for (let i = 0; i < 5; i++) await new Promise((resolve) => setImmediate(resolve));
}

let current: Live;

beforeEach(() => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  [hidden, heard, told, opened, refused, streams, answer] = [false, 0, [], 0, 0, [], streamed];
});

afterEach(async () => {
  hidden = true;
  current.check();
  await pass();
  vi.useRealTimers();
});

test("the event that comes at once is news, since nobody listened before; then each change is, and beats are not", async () => {
  current = live();
  current.check();
  await pass();
  expect(heard).toBe(0);
  send('event: changed\ndata: {"cursor": 11}\n\n');
  await pass();
  expect(heard).toBe(1);
  send(": beat\n\n");
  await pass();
  expect(heard).toBe(1);
  send('event: changed\ndata: {"curs');
  await pass();
  expect(heard).toBe(1);
  send('or": 12}\n\n: beat\n\n');
  await pass();
  expect(heard).toBe(2);
});

test("an event says where the server is; one of 0.1.0, or half of one, says it not", async () => {
  current = live();
  current.check();
  await pass();
  const news = { cursor: 12, setup: "s1", set_aside: "0-0" };
  send(`event: changed\ndata: ${JSON.stringify(news)}\n\n`);
  await pass();
  send('event: changed\ndata: {"cursor": 12}\n\n');
  await pass();
  send("event: changed\ndata: {\n\n");
  await pass();
  expect(told).toEqual([news, null, null]);
});

test("events that come together are one, and the last one counts", async () => {
  current = live();
  current.check();
  await pass();
  const event = (cursor: number) =>
    `event: changed\ndata: ${JSON.stringify({ cursor, setup: "s1", set_aside: "0-0" })}\n\n`;
  send(event(1) + event(2) + event(3));
  await pass();
  expect(told.map((one) => one?.cursor)).toEqual([3]);
});

test("a stream that ends with a word of when to come back is opened again then, and not before", async () => {
  current = live();
  current.check();
  await pass();
  send("retry: 9000\n\n");
  streams.at(-1)?.close();
  await pass(8_900);
  expect(opened).toBe(1);
  await pass(200);
  expect(opened).toBe(2);
});

test("no stream while hidden; one again when shown", async () => {
  current = live();
  hidden = true;
  current.check();
  await pass(60_000);
  expect(opened).toBe(0);
  hidden = false;
  current.check();
  current.check();
  await pass();
  expect(opened).toBe(1);
  hidden = true;
  current.check();
  await pass(60_000);
  expect(opened).toBe(1);
});

test("a stream that falls silent is opened again", async () => {
  current = live();
  current.check();
  await pass();
  await pass(44_000);
  expect(opened).toBe(1);
  await pass(4_000);
  expect(opened).toBe(2);
});

test("a captive portal's page is no stream and no news; the tries come ever later", async () => {
  answer = () => new Response("<html>", { headers: { "Content-Type": "text/html" } });
  current = live();
  current.check();
  for (let i = 0; i < 60; i++) await pass(1_000);
  expect(heard).toBe(0);
  expect(opened).toBeGreaterThan(4);
  expect(opened).toBeLessThan(12);
});

test("nobody joined: the server is left alone", async () => {
  current = live(null);
  current.check();
  for (let i = 0; i < 30; i++) await pass(1_000);
  expect(opened).toBe(0);
});

test("a token that the server does not take is told of, and what is no answer of the server is not", async () => {
  answer = () => new Response("{}", { status: 401, headers: { "Content-Type": "application/problem+json" } });
  current = live();
  current.check();
  await pass();
  expect([refused, heard]).toEqual([1, 0]);
  answer = () => new Response("busy", { status: 503 });
  await pass(5_000);
  expect(opened).toBeGreaterThan(1);
  expect(refused).toBe(1);
});
