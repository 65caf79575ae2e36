/** A phone's browser, as far as the app asks for it: one page, its clock, timers, locks and network. */

import * as fake from "fake-indexeddb";
import type { Chance } from "./chance";
import type { Clockwork } from "./clockwork";
import type { Disk } from "./disk";
import { cryptoOf } from "./signing";
import { Weak } from "./weak";

type Listener = (event: { type: string; persisted?: boolean; data?: unknown }) => void;

/** What the pages of one phone share. */
export interface Hardware {
  clockwork: Clockwork;
  chance: Chance;
  disk: Disk;
  locks: LocksOfPhone | null;
  /** Ms that the phone's clock is ahead of the true one. */
  skew_ms: number;
  /** Unix ms at which the history began. */
  epoch_ms: number;
  isShown: boolean;
  fetch: (input: string, init: RequestInit, page: Page) => Promise<Response>;
  /** Works a queue out, as the app's worker does. */
  workOut: (ask: unknown) => unknown;
  pages: Set<Page>;
}

/** One page of the app, from its loading to its end. */
export class Page {
  isAlive = true;
  private timers = new Set<number>();
  private listeners = new Map<string, Set<Listener>>();
  private session = new Map<string, string>();
  readonly channels = new Set<Channel>();

  constructor(readonly phone: Hardware) {
    phone.pages.add(this);
  }

  /** End the page at once, wherever it is: no timer, lock, call or transaction of it goes on. */
  kill(): void {
    this.isAlive = false;
    for (const timer of this.timers) this.phone.clockwork.cancel(timer);
    this.phone.locks?.letGo(this);
    this.phone.pages.delete(this);
    this.listeners.clear();
    this.channels.clear();
  }

  tell(type: string): void {
    for (const listener of [...(this.listeners.get(type) ?? [])]) listener({ type, persisted: true });
  }

  now(): number {
    return this.phone.epoch_ms + this.phone.clockwork.now_ms + this.phone.skew_ms;
  }

  later(run: (...given: unknown[]) => void, wait_ms = 0, every = false, ...given: unknown[]): number {
    if (!this.isAlive) return 0;
    const { clockwork } = this.phone;
    let number = 0;
    const due = () => {
      this.timers.delete(number);
      if (!this.isAlive) return;
      if (every) number = clockwork.after(Math.max(1, wait_ms), due);
      if (every) this.timers.add(number);
      names.set(first, number);
      run(...given);
    };
    number = clockwork.after(every ? Math.max(1, wait_ms) : wait_ms, due);
    const first = number;
    const { names } = this;
    this.timers.add(number);
    return first;
  }

  /** An interval's name is its first timer's number. */
  private names = new Map<number, number>();

  forget(first: number | undefined): void {
    if (first === undefined) return;
    const number = this.names.get(first) ?? first;
    this.timers.delete(number);
    this.phone.clockwork.cancel(number);
  }

  /** Return what the app's code finds around it, by name. */
  globals(): Record<string, unknown> {
    const page = this;
    const { chance } = this.phone;
    const on = (type: string, listener: Listener) => {
      this.listeners.set(type, (this.listeners.get(type) ?? new Set()).add(listener));
    };
    const off = (type: string, listener: Listener) => this.listeners.get(type)?.delete(listener);
    const crypto = cryptoOf(chance);
    const globals: Record<string, unknown> = {
      setTimeout: (run: () => void, ms?: number, ...given: unknown[]) => this.later(run, ms, false, ...given),
      setInterval: (run: () => void, ms?: number) => this.later(run, ms, true),
      clearTimeout: (number?: number) => this.forget(number),
      clearInterval: (number?: number) => this.forget(number),
      Date: dateOf(() => this.now()),
      Math: Object.assign(Object.create(Math), { random: () => chance.number() }),
      crypto,
      AbortSignal: { timeout: (ms: number) => this.timeout(ms) },
      fetch: (input: string, init: RequestInit) => this.phone.fetch(input, init, this),
      document: {
        get visibilityState() {
          return page.phone.isShown ? "visible" : "hidden";
        },
        addEventListener: on,
      },
      location: { hash: "", reload() {} },
      history: { replaceState() {} },
      navigator: { ...(this.phone.locks ? { locks: this.phone.locks.of(this) } : {}), storage: undefined },
      sessionStorage: {
        getItem: (name: string) => this.session.get(name) ?? null,
        setItem: (name: string, value: string) => void this.session.set(name, value),
        removeItem: (name: string) => void this.session.delete(name),
      },
      BroadcastChannel: channelsOf(this),
      Worker: workersOf(this),
      addEventListener: on,
      removeEventListener: off,
      isSecureContext: false,
      indexedDB: this.phone.disk.openedBy(this),
      WeakMap: Weak,
      console: { error() {}, warn() {}, log() {} },
      ...Object.fromEntries(Object.entries(fake).filter(([name]) => /^IDB/.test(name))),
    };
    globals.window = globals;
    globals.self = globals;
    globals.globalThis = globals;
    return globals;
  }

  private timeout(ms: number): AbortSignal {
    const own = new AbortController();
    this.later(() => own.abort(new DOMException("timed out", "TimeoutError")), ms);
    return own.signal;
  }
}

function dateOf(now: () => number): DateConstructor {
  class PhoneDate extends Date {
    constructor(...given: [number | string | Date] | []) {
      if (given.length === 0) super(now());
      else super(...(given as [number]));
    }
    static override now(): number {
      return now();
    }
  }
  return PhoneDate as unknown as DateConstructor;
}

type Granted = (lock: { name: string } | null) => Promise<unknown> | unknown;

interface Asked {
  page: Page;
  grant: () => void;
}

/** Web Locks of one phone's pages. A page that ends lets go of all that it holds. */
export class LocksOfPhone {
  private held = new Map<string, Page>();
  private queues = new Map<string, Asked[]>();

  of(page: Page): { request: LockManager["request"] } {
    const request = (name: string, ...rest: [Granted] | [LockOptions, Granted]) => {
      const [options, granted] = rest.length === 1 ? [{}, rest[0]] : rest;
      return this.request(page, name, options, granted);
    };
    return { request: request as unknown as LockManager["request"] };
  }

  private async request(page: Page, name: string, options: LockOptions, granted: Granted): Promise<unknown> {
    // What is left of a page that has ended goes no further.
    if (!page.isAlive) return new Promise(() => {});
    if (this.held.has(name) && options.ifAvailable) return granted(null);
    if (this.held.has(name)) await this.turn(page, name, options.signal);
    this.held.set(name, page);
    try {
      return await granted({ name });
    } finally {
      if (this.held.get(name) === page) this.next(name);
    }
  }

  private turn(page: Page, name: string, signal?: AbortSignal): Promise<void> {
    return new Promise((grant, refuse) => {
      const asked = { page, grant };
      this.queues.set(name, [...(this.queues.get(name) ?? []), asked]);
      signal?.addEventListener("abort", () => {
        this.queues.set(
          name,
          (this.queues.get(name) ?? []).filter((one) => one !== asked),
        );
        refuse(signal.reason);
      });
    });
  }

  private next(name: string): void {
    this.held.delete(name);
    const [first, ...others] = (this.queues.get(name) ?? []).filter((one) => one.page.isAlive);
    this.queues.set(name, others);
    if (!first) return;
    this.held.set(name, first.page);
    first.grant();
  }

  letGo(page: Page): void {
    for (const [name, holder] of [...this.held]) if (holder === page) this.next(name);
  }
}

interface Channel {
  name: string;
  onmessage: Listener | null;
}

/** `BroadcastChannel` between the pages of one phone. */
function channelsOf(page: Page) {
  return class implements Channel {
    onmessage: Listener | null = null;
    constructor(readonly name: string) {
      page.channels.add(this);
    }
    postMessage(data: unknown): void {
      for (const other of page.phone.pages) {
        if (other === page) continue;
        for (const channel of other.channels) {
          if (channel.name === this.name) other.later(() => channel.onmessage?.({ type: "message", data }), 1);
        }
      }
    }
    close(): void {
      page.channels.delete(this);
    }
  };
}

/** The app's worker: it answers a little later, or not at all where the page has ended. */
function workersOf(page: Page) {
  return class {
    onmessage: ((event: { data: unknown }) => void) | null = null;
    onerror: (() => void) | null = null;
    postMessage(ask: unknown): void {
      const sent = structuredClone(ask);
      page.later(() => this.onmessage?.({ data: page.phone.workOut(sent) }), page.phone.chance.whole(5, 400));
    }
    terminate(): void {}
  };
}
