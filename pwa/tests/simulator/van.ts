/** The server as the simulator sees it: up or down, reached through the pipe, its disk full, its clock wrong. */

import type { Clockwork } from "./clockwork";
import type { Said } from "./network";
import { askServer, type Json } from "./pipe";

/** What lies in the server's log and beside it, and what is wrong with it. */
export interface Looked {
  problems: string[];
  log_id: string;
  rows: [id: string, raw: string][];
  set_aside: { raw: string; code: string; left_out: boolean }[];
  /** By car, the queue in canonical form; and what was set aside for it. */
  queues: Record<string, { queue: string; set_aside: string[] }>;
}

export class Van {
  isUp = true;
  skew_ms = 0;
  /** The next call is the last one: the power goes at this statement of it. */
  diesAt: number | null = null;
  onDeath: () => void = () => {};
  onChange: () => void = () => {};

  constructor(
    private clockwork: Clockwork,
    private epoch_ms: number,
    private wrong: (what: string) => void,
  ) {}

  ask(op: string, more: Json = {}): Json {
    return askServer({ op, now_ms: this.epoch_ms + this.clockwork.now_ms + this.skew_ms, ...more });
  }

  serve(call: Json): Said | null {
    if (!this.isUp) return null;
    const said = this.ask("call", { call, dies_at: this.diesAt }) as unknown as Said & {
      died: boolean;
      changed: boolean;
      missing: string[];
    };
    if (said.died) {
      this.diesAt = null;
      this.isUp = false;
      this.onDeath();
      return null;
    }
    if (said.status === 500) this.wrong(`${call.method} ${call.path}: ${said.text}`);
    for (const id of said.missing) this.wrong(`the server acknowledged ${id} and does not hold it`);
    if (said.changed) this.onChange();
    return said;
  }

  /** Switch the power off between two calls. */
  kill(): void {
    if (!this.isUp) return;
    this.isUp = false;
    this.onDeath();
  }

  /** Start it again, over what lies on its disk. */
  start(): void {
    if (this.isUp) return;
    this.ask("open");
    this.isUp = true;
  }

  /** Shut a device out; what the log holds of it stays believed. */
  shutOut(device: string): void {
    const { believed, held } = this.ask("shut_out", { device }) as { believed: number; held: number };
    if (held > believed) this.wrong(`the log holds number ${held} of ${device}, blocked after ${believed}`);
    this.onChange();
  }

  news(): unknown {
    return this.isUp ? this.ask("news").news : null;
  }

  look(): Looked {
    return this.ask("look") as unknown as Looked;
  }
}
