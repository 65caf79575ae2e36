/** One phone with the real app in it: opened, used, killed at any step, opened again over the same disk. */

import type { Engine } from "../../src/flow/engine";
import type { AppState } from "../../src/flow/model";
import type { Entry } from "../../src/kit/api";
import type { QueueAsk } from "../../src/kit/queue_ask";
import type { EntryRecord } from "../../src/store/db";
import { type Hardware, LocksOfPhone, Page } from "./browser";
import type { Chance } from "./chance";
import type { Clockwork } from "./clockwork";
import { Disk } from "./disk";
import { FAIR, type Network, type Weather } from "./network";

/** What the app's bundle gives. */
export interface App {
  startEngine(): Engine;
  queueAnswer(ask: QueueAsk): unknown;
  canonical(value: unknown): string;
  UserError: new (text: string) => Error;
}

/** The app's code, to be run in the world of one page. */
export type Code = (globals: Record<string, unknown>) => App;

export interface World {
  clockwork: Clockwork;
  chance: Chance;
  network: Network;
  code: Code;
  epoch_ms: number;
  note: (...what: unknown[]) => void;
  wrong: (what: string) => void;
}

export class Phone {
  readonly hardware: Hardware;
  readonly disk = new Disk();
  weather: Weather = FAIR;
  page: Page | null = null;
  private app: App | null = null;
  private engine: Engine | null = null;
  /** What was written here and promised to be kept: ids with what they say. */
  readonly written = new Map<string, string>();
  /** Ids that an action named as saved and that were not yet looked up on the disk. */
  readonly promised = new Set<string>();
  /** Actions under way. */
  busy = 0;

  constructor(
    readonly name: string,
    readonly person: string,
    private world: World,
    withLocks: boolean,
  ) {
    this.hardware = {
      clockwork: world.clockwork,
      chance: world.chance.apart(),
      disk: this.disk,
      locks: withLocks ? new LocksOfPhone() : null,
      skew_ms: 0,
      epoch_ms: world.epoch_ms,
      isShown: true,
      fetch: (input, init, page) => world.network.fetch(input, init, page, () => this.weather),
      workOut: (ask) => this.workOut(ask as QueueAsk),
      pages: new Set(),
    };
  }

  get isOpen(): boolean {
    return this.page !== null;
  }

  get state(): AppState | null {
    return this.engine?.state() ?? null;
  }

  open(): void {
    this.page = new Page(this.hardware);
    this.app = this.world.code(this.page.globals());
    this.engine = this.app.startEngine();
  }

  /** End the app at this very step. */
  kill(): void {
    this.page?.kill();
    this.disk.cut();
    this.page = null;
    this.engine = null;
    this.busy = 0;
  }

  show(isShown: boolean): void {
    if (this.hardware.isShown === isShown) return;
    this.hardware.isShown = isShown;
    this.page?.tell("visibilitychange");
  }

  /** Do what a person does; what goes wrong with it is said on the screen, and nothing more. */
  act(what: string, doing: (engine: Engine) => unknown): void {
    const { app, engine, page } = this;
    if (!app || !engine || !page) return;
    this.busy += 1;
    this.world.note("act", this.name, what);
    const ended = (said: string) => {
      if (!page.isAlive) return;
      this.busy -= 1;
      this.world.note("done", this.name, what, said);
    };
    const done = (result: unknown) => {
      if (page.isAlive && what === "fileReport" && typeof result === "string") this.promised.add(result);
      ended("");
    };
    const failed = (error: unknown) => {
      const isSaid = error instanceof app.UserError;
      const isOfStore = error instanceof DOMException;
      if (page.isAlive && !isSaid && !isOfStore)
        this.world.wrong(`${this.name}: ${what} ended with ${described(error)}`);
      ended(error instanceof Error && (isSaid || isOfStore) ? error.message : "failed");
    };
    Promise.resolve()
      .then(() => doing(engine))
      .then(done, failed);
  }

  private workOut(ask: QueueAsk): unknown {
    try {
      return { queue: this.app?.queueAnswer(ask) };
    } catch (error) {
      return { failed: String(error) };
    }
  }

  /** Return the phone's own queue of a car in canonical form, worked out of what lies on its disk. */
  ownQueue(event: string, car: string, set_aside: string[]): string {
    const heard = this.disk.answer("setup") as { events: QueueAsk["setup"][] } | undefined;
    const setup = heard?.events.find((one) => one.event === event);
    if (!setup || !this.app) return "{}";
    const entries = this.disk
      .entries()
      .flatMap((one) => (one.sending === "sent" || one.sending === "withheld" ? [one.entry] : []));
    return this.app.canonical(this.app.queueAnswer({ setup, entries, car, set_aside }));
  }

  /** Look at the disk while nothing is written there: what was promised is there, and nothing there has gone. */
  lookAtDisk(): void {
    const held = new Map<string, EntryRecord>(this.disk.entries().map((one) => [one.id, one]));
    for (const id of this.promised) if (!held.has(id)) this.world.wrong(`${this.name}: ${id} was saved and is gone`);
    this.promised.clear();
    for (const [id, text] of this.written) {
      const here = held.get(id);
      if (!here) this.world.wrong(`${this.name}: ${id} was on the disk and is gone`);
      else if (unsigned(here.entry) !== text) this.world.wrong(`${this.name}: ${id} was changed on the disk`);
    }
    for (const one of held.values()) if (one.mine) this.written.set(one.id, unsigned(one.entry));
    this.lookAtNumbers([...held.values()]);
  }

  private lookAtNumbers(held: EntryRecord[]): void {
    const numbers = new Map<string, Set<number>>();
    for (const { mine, entry } of held) {
      if (!mine) continue;
      const of = numbers.get(entry.device) ?? new Set();
      if (of.has(entry.seq)) this.world.wrong(`${this.name}: number ${entry.seq} of ${entry.device} was given twice`);
      numbers.set(entry.device, of.add(entry.seq));
    }
    for (const [device, of] of numbers) {
      if (Math.max(...of) !== of.size) this.world.wrong(`${this.name}: ${device} leaves numbers out`);
    }
  }
}

/** Return what an entry says, in one form, without its signature. */
export function unsigned(entry: Entry | Record<string, unknown>): string {
  const { sig: _, ...rest } = entry as Record<string, unknown>;
  return sorted(rest);
}

function sorted(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) =>
    inner !== null && typeof inner === "object" && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([one], [other]) => (one < other ? -1 : 1)))
      : inner,
  );
}

export function described(error: unknown): string {
  return error instanceof Error ? `${error.name}: ${error.message}\n${error.stack ?? ""}` : String(error);
}
