/** One history: phones, people, a server and their troubles, from a seed to what must hold at the end. */

import { createHash } from "node:crypto";
import { Chance } from "./chance";
import { Clockwork, forgetSteps } from "./clockwork";
import { doSomething, PIN } from "./deeds";
import { forgetDisks } from "./disk";
import { whatIsWrong } from "./invariants";
import { FAIR, Network, type Said } from "./network";
import type { Json } from "./pipe";
import { type Code, Phone } from "./phone";
import { letTroublesCome } from "./troubles";
import { Van } from "./van";

const MINUTE = 60_000;
/** Saturday, 13 June 2026, 08:00 UTC. */
const EPOCH_MS = Date.UTC(2026, 5, 13, 8);
export const CARS = ["41", "42"];
export const EVENT = "small-2026";
const CREW = ["p-toma", "p-bodo", "p-anni", "p-odil", "p-vera"];
/** How long all may take to be everywhere once nothing is wrong any more. */
const HEALED_WITHIN_MS = 15 * MINUTE;
const LOOK_MS = 45_000;

/** What is asked of a history. */
export interface Plan {
  seed: number;
  /** Virtual minutes before the healing; null: by chance. */
  minutes: number | null;
  phones: number;
  /** How much more seldom deeds and troubles come than in a short history. */
  pace: number;
  /** Keep the lines of the trace, to compare two runs. */
  trace: boolean;
}

/** What came of it. */
export interface Outcome {
  seed: number;
  wrong: string[];
  hash: string;
  virtual_ms: number;
  entries: number;
  calls: number;
  steps: number;
  lines: string[];
}

export class History {
  readonly clockwork = new Clockwork();
  readonly chance: Chance;
  readonly phones: Phone[] = [];
  readonly van: Van;
  readonly network: Network;
  readonly acknowledged = new Set<string>();
  readonly wrong: string[] = [];
  isHealing = false;
  calls = 0;
  /** Set where the server began again from nothing or from an older copy. */
  rebuilds = 0;
  private backedUp = false;
  private hash = createHash("sha256");
  private lines: string[] = [];
  private dying: { phone: Phone; steps: number } | null = null;

  constructor(
    readonly plan: Plan,
    private code: Code,
  ) {
    this.chance = new Chance(plan.seed);
    const wrong = (what: string) => this.isWrong(what);
    this.van = new Van(this.clockwork, EPOCH_MS, wrong);
    const apart = this.chance.apart();
    this.network = new Network(
      this.clockwork,
      apart,
      (ask) => this.serve(ask),
      () => this.van.news(),
    );
    this.network.onAnswer = (ask, said) => this.onAnswer(ask, said);
    this.van.onDeath = () => this.onDeath();
    this.van.onChange = () => this.network.changed();
    this.clockwork.onStep = () => this.onStep();
  }

  /** Write a line of the trace: two runs of one seed write the same. */
  note(...what: unknown[]): void {
    const line = `${this.clockwork.now_ms} ${what.map(String).join(" ")}`;
    this.hash.update(`${line}\n`);
    if (this.plan.trace) this.lines.push(line);
  }

  isWrong(what: string): void {
    this.note("wrong", what);
    if (this.wrong.length < 50) this.wrong.push(`at ${this.clockwork.now_ms} ms: ${what}`);
  }

  async run(): Promise<Outcome> {
    this.van.ask("begin", {
      seed: this.plan.seed,
      demanded: this.chance.happens(0.5),
      page: this.chance.one([3, 20, 500]),
    });
    this.meet();
    letTroublesCome(this);
    const minutes = this.plan.minutes ?? this.chance.whole(2, 6);
    await this.clockwork.runUntil(minutes * MINUTE);
    await this.heal();
    this.note("end", ...this.phones.map((one) => one.disk.entries().length));
    return this.outcome();
  }

  private outcome(): Outcome {
    const { seed } = this.plan;
    const entries = new Set(this.phones.flatMap((one) => [...one.written.keys()])).size;
    const { now_ms: virtual_ms, steps } = this.clockwork;
    const hash = this.hash.digest("hex");
    return { seed, wrong: this.wrong, hash, virtual_ms, entries, calls: this.calls, steps, lines: this.lines };
  }

  /** Everybody gets a phone, a link and work to do. */
  private meet(): void {
    const { chance, clockwork } = this;
    const world = {
      clockwork,
      chance,
      network: this.network,
      code: this.code,
      epoch_ms: EPOCH_MS,
      note: (...what: unknown[]) => this.note(...what),
      wrong: (what: string) => this.isWrong(what),
    };
    const hurry_ms = this.plan.pace * chance.one([20_000, 45_000, 90_000]);
    for (let number = 0; number < this.plan.phones; number++) {
      const person = CREW[number % CREW.length] as string;
      const phone = new Phone(`phone ${number}`, person, world, chance.happens(0.7));
      this.phones.push(phone);
      phone.open();
      this.later(chance.whole(100, 3_000), () => this.letIn(phone));
      const work = () => {
        if (this.isHealing) return;
        if (phone.isOpen) doSomething(phone, chance);
        clockwork.after(chance.wait(hurry_ms), work);
      };
      clockwork.after(chance.whole(4_000, 20_000), work);
    }
    const everyMinute = () => {
      this.letInAgain();
      clockwork.after(MINUTE, everyMinute);
    };
    clockwork.after(MINUTE, everyMinute);
    const beat = () => {
      this.network.beat();
      clockwork.after(15_000, beat);
    };
    clockwork.after(15_000, beat);
  }

  /** Give a phone's person a new link, which is opened at once. */
  letIn(phone: Phone): void {
    if (!this.van.isUp || !phone.isOpen) return;
    const { code } = this.van.ask("invite", { person: phone.person });
    if (typeof code === "string") phone.act("join", (engine) => engine.actions.join(code, PIN));
  }

  /** Whoever has no way to speak with the server asks for a new link, sooner or later. */
  private letInAgain(): void {
    const isEmpty = this.van.isUp && this.van.ask("events").count === 0;
    if (isEmpty && (this.isHealing || this.chance.happens(0.3))) this.load(0);
    for (const phone of this.phones) {
      const { state } = phone;
      const isOut = state?.ready && (state.identity === null || state.token_refused);
      if (isOut && (this.isHealing || this.chance.happens(0.5))) this.letIn(phone);
    }
  }

  later(wait_ms: number, run: () => void): void {
    this.clockwork.after(wait_ms, run);
  }

  /** Put files in force as whoever runs the server does. `variant`: which. */
  load(variant: number): void {
    if (!this.van.isUp) return;
    this.van.ask("load", { variant });
    this.van.onChange();
  }

  backup(): void {
    this.van.ask("backup");
    this.backedUp = true;
  }

  /** The server's folder is lost: it begins again from nothing, or from the last copy. */
  lose(): void {
    if (this.rebuilds >= 2) return;
    this.rebuilds += 1;
    const restored = this.backedUp && this.chance.happens(0.5);
    this.van.kill();
    this.note("lost", restored);
    this.van.ask(restored ? "restore" : "lose");
    // The manager comes first, as whoever rebuilds a server is told to.
    this.later(this.chance.whole(1_000, 30_000), () => {
      const manager = this.phones.find((one) => one.person === "p-vera");
      if (manager) this.letIn(manager);
    });
  }

  private serve(ask: Json): Said | null {
    this.calls += 1;
    const said = this.van.serve(ask);
    this.note(
      "call",
      ask.method,
      ask.path,
      String(ask.body ?? "").length,
      said?.status ?? "down",
      said?.text.length ?? 0,
    );
    return said;
  }

  private onAnswer(ask: Json, said: Said): void {
    if (ask.path !== "/api/v1/sync" || said.status !== 200) return;
    for (const id of (JSON.parse(said.text) as { accepted: string[] }).accepted) this.acknowledged.add(id);
  }

  private onDeath(): void {
    this.note("server down");
    this.network.hangUp();
    const down_ms = this.isHealing ? 1_000 : this.chance.wait(MINUTE / 2) + 500;
    this.later(down_ms, () => this.van.start());
  }

  killSoon(phone: Phone, steps: number): void {
    this.dying = { phone, steps };
  }

  killPhone(phone: Phone): void {
    if (!phone.isOpen) return;
    this.note("killed", phone.name);
    phone.kill();
    const closed_ms = this.isHealing ? 1_000 : this.chance.wait(MINUTE / 2) + 200;
    this.later(closed_ms, () => phone.isOpen || phone.open());
  }

  // The step at which a phone dies is counted from the next step of its own disk on.
  private onStep(): void {
    if (this.dying && !this.dying.phone.disk.isAtRest() && this.dying.steps-- <= 0) {
      const { phone } = this.dying;
      this.dying = null;
      this.killPhone(phone);
    }
    for (const phone of this.phones) if (phone.promised.size > 0 && phone.disk.isAtRest()) phone.lookAtDisk();
  }

  /** Everything works again; from now on nobody does anything but let in who was shut out. */
  private async heal(): Promise<void> {
    this.note("heals");
    this.isHealing = true;
    this.dying = null;
    this.van.diesAt = null;
    this.van.skew_ms = 0;
    this.van.start();
    this.van.ask("fill", { full: false });
    for (const phone of this.phones) {
      phone.weather = FAIR;
      phone.disk.full = false;
      phone.hardware.skew_ms = 0;
      phone.show(true);
      if (!phone.isOpen) phone.open();
    }
    this.letInAgain();
    const end_ms = this.clockwork.now_ms + HEALED_WITHIN_MS;
    let wrong: string[];
    do {
      await this.clockwork.runUntil(this.clockwork.now_ms + LOOK_MS);
      wrong = whatIsWrong(this);
    } while (wrong.length > 0 && this.clockwork.now_ms < end_ms);
    // What holds has to hold still.
    await this.clockwork.runUntil(this.clockwork.now_ms + LOOK_MS);
    for (const phone of this.phones) phone.lookAtDisk();
    for (const what of whatIsWrong(this)) this.isWrong(what);
  }

  end(): void {
    for (const phone of this.phones) phone.kill();
    forgetSteps();
    forgetDisks();
  }
}
