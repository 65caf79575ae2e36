/** The live stream: text/event-stream as WHATWG HTML 9.2 writes it, over a fetch that can be cut. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type Live, openLive } from "../src/sync/live";
import type { Fetch } from "../src/sync/wire";

let hidden = false;
let heard = 0;
let opened = 0;
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
  const onChanged = () => {
    heard++;
  };
  return openLive({
    fetch: fetcher,
    token: async () => token,
    onChanged,
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
  [hidden, heard, opened, streams, answer] = [false, 0, 0, [], streamed];
});

afterEach(async () => {
  hidden = true;
  current.check();
  await pass();
  vi.useRealTimers();
});

test("opening counts as news, since nobody listened before; then each change does, and beats do not", async () => {
  current = live();
  current.check();
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

test("a stream that falls silent is opened anew", async () => {
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
