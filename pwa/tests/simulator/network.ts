/** The network between phones and the server: calls and answers come late, twice, torn, out of order or not at all. */

import type { Page } from "./browser";
import type { Chance } from "./chance";
import type { Clockwork } from "./clockwork";
import type { Json } from "./pipe";

/** How bad the way of one phone is; shares in [0, 1]. */
export interface Weather {
  isUp: boolean;
  loses: number;
  doubles: number;
  tears: number;
  portal: number;
  longest_ms: number;
}

export const FAIR: Weather = { isUp: true, loses: 0, doubles: 0, tears: 0, portal: 0, longest_ms: 60 };

/** What the server said to a call. */
export interface Said {
  status: number;
  headers: Record<string, string>;
  text: string;
}

interface Stream {
  page: Page;
  /** Something of it was lost: nothing comes through any more, until the phone takes it for dead. */
  isBroken?: boolean;
  weather: () => Weather;
  push: (text: string) => void;
  end: (error: unknown) => void;
}

export class Network {
  private streams = new Set<Stream>();
  /** An answer that reached a phone whole. */
  onAnswer: (ask: Json, said: Said) => void = () => {};

  constructor(
    private clockwork: Clockwork,
    private chance: Chance,
    /** Has the server take a call; null where it is down, or dies of it. */
    private serve: (ask: Json) => Said | null,
    /** Says where the server is. */
    private news: () => unknown,
  ) {}

  /** Make a phone's call. */
  fetch(input: string, init: RequestInit, page: Page, weather: () => Weather): Promise<Response> {
    const method = init.method ?? "GET";
    const body = typeof init.body === "string" ? init.body : null;
    const ask: Json = { method, path: input, headers: init.headers as Json, body };
    if (!page.isAlive) return new Promise(() => {});
    return new Promise((resolve, reject) => {
      const fail = (error: unknown) => page.isAlive && reject(error);
      init.signal?.addEventListener("abort", () => fail(init.signal?.reason));
      this.send(ask, page, weather, init.signal ?? null, (said) => page.isAlive && resolve(said), fail);
    });
  }

  private send(
    ask: Json,
    page: Page,
    weather: () => Weather,
    signal: AbortSignal | null,
    resolve: (said: Response) => void,
    fail: (error: unknown) => void,
  ): void {
    const { chance, clockwork } = this;
    const way = weather();
    const noNetwork = () => fail(new TypeError("Failed to fetch"));
    if (!way.isUp) return void clockwork.after(chance.whole(1, 50), noNetwork);
    if (chance.happens(way.portal)) return void clockwork.after(chance.whole(1, 200), () => resolve(portal()));
    if (chance.happens(way.loses)) return; // Nothing comes back: the call's own time-out ends it.
    if (chance.happens(way.doubles)) clockwork.after(chance.whole(1, 4 * way.longest_ms), () => void this.reach(ask));
    clockwork.after(chance.whole(1, way.longest_ms), () => {
      if (ask.path === "/api/v1/live") return this.listen(ask, page, weather, signal, resolve, fail);
      const said = this.reach(ask);
      const back = weather();
      if (!said) return void clockwork.after(chance.whole(1, back.longest_ms), noNetwork);
      if (!back.isUp || chance.happens(back.loses)) return;
      const torn = chance.happens(back.tears);
      clockwork.after(chance.whole(1, back.longest_ms), () => {
        if (page.isAlive && !signal?.aborted && !torn) this.onAnswer(ask, said);
        resolve(responseOf(said, torn ? chance.number() : 1));
      });
    });
  }

  private reach(ask: Json): Said | null {
    return this.serve(ask);
  }

  private listen(
    ask: Json,
    page: Page,
    weather: () => Weather,
    signal: AbortSignal | null,
    resolve: (said: Response) => void,
    fail: (error: unknown) => void,
  ): void {
    const said = this.reach(ask);
    if (!said) fail(new TypeError("Failed to fetch"));
    else if (said.status !== 200) resolve(responseOf(said, 1));
    else this.stream(page, weather, signal, resolve);
  }

  private stream(
    page: Page,
    weather: () => Weather,
    signal: AbortSignal | null,
    resolve: (said: Response) => void,
  ): void {
    const stream = streamOf(page, weather);
    this.streams.add(stream);
    signal?.addEventListener("abort", () => {
      this.streams.delete(stream);
      stream.end(signal.reason);
    });
    resolve(stream.response);
    this.tell(stream, this.news());
  }

  private tell(stream: Stream, news: unknown): void {
    const way = stream.weather();
    this.clockwork.after(this.chance.whole(1, way.longest_ms), () => {
      if (!stream.page.isAlive) return this.streams.delete(stream);
      // Of a connection all comes through in its order, or nothing more.
      stream.isBroken ||= !stream.weather().isUp || this.chance.happens(way.loses);
      if (news && !stream.isBroken) stream.push(`event: changed\ndata: ${JSON.stringify(news)}\n\n`);
    });
  }

  /** Tell all who listen that something changed. */
  changed(): void {
    if (this.streams.size === 0) return;
    const news = this.news();
    for (const stream of this.streams) this.tell(stream, news);
  }

  /** A beat on all streams, so that nobody takes them for dead. */
  beat(): void {
    for (const stream of this.streams) {
      stream.isBroken ||= !stream.weather().isUp;
      if (stream.page.isAlive && !stream.isBroken) stream.push(": beat\n\n");
    }
  }

  /** The server has gone, and its streams with it. */
  hangUp(): void {
    for (const stream of this.streams) stream.end(new TypeError("network error"));
    this.streams.clear();
  }
}

function streamOf(page: Page, weather: () => Weather): Stream & { response: Response } {
  const waiting: ((part: { done: boolean; value?: Uint8Array }) => void)[] = [];
  const failing: ((error: unknown) => void)[] = [];
  const parts: Uint8Array[] = [];
  let ended: { error: unknown } | null = null;
  const read = () => {
    const part = parts.shift();
    if (part) return Promise.resolve({ done: false, value: part });
    if (ended) return Promise.reject(ended.error);
    return new Promise((resolve, reject) => {
      waiting.push(resolve as (part: { done: boolean }) => void);
      failing.push(reject);
    });
  };
  const push = (text: string) => {
    const value = new TextEncoder().encode(text);
    failing.shift();
    const reader = waiting.shift();
    if (reader) reader({ done: false, value });
    else parts.push(value);
  };
  const end = (error: unknown) => {
    if (!page.isAlive) return;
    ended ??= { error };
    for (const reject of failing.splice(0)) reject(error);
    waiting.length = 0;
  };
  const headers = new Headers({ "Content-Type": "text/event-stream" });
  const body = { getReader: () => ({ read }), cancel: async () => {} };
  return { page, weather, push, end, response: { ok: true, status: 200, headers, body } as unknown as Response };
}

/** Return an answer of which only a share arrived. */
function responseOf({ status, headers, text }: Said, share: number): Response {
  const arrived = share < 1 ? text.slice(0, Math.floor(text.length * share)) : text;
  return {
    ok: status >= 200 && status < 300,
    status,
    headers: new Headers(headers),
    body: { cancel: async () => {} },
    text: async () => arrived,
    json: async () => JSON.parse(arrived),
  } as unknown as Response;
}

const portal = () =>
  responseOf({ status: 200, headers: { "Content-Type": "text/html" }, text: "<!doctype html><title>Free</title>" }, 1);
