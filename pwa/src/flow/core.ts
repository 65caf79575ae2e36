/** What every action needs: the store, the page's own facts, and a way to have the screens drawn again. */

import type { Db } from "../store/db";
import type { Tabs } from "../store/tabs";
import type { Live } from "../sync/live";
import type { Outbox } from "../sync/outbox";
import type { Fetch } from "../sync/wire";
import type { AppState } from "./model";
import type { Page, Snapshot } from "./state";

export interface Core {
  /** Settles when the store is open. */
  db: Promise<Db>;
  page: Page;
  fetch: Fetch;
  /** Unix ms. */
  now(): number;
  /** What was read last. */
  snapshot(): Snapshot;
  /** Read the store again and have the screens drawn. */
  refresh(): Promise<void>;
  /** The store has something to send: other tabs look again, and the outbox starts. Does not wait for the server. */
  written(): void;
  /** Fetch those of the server's answers that this tab shows and does not hold, then refresh. `anyway`: held or not. */
  askAnswers(anyway?: boolean): Promise<void>;
}

/** The moving parts that actions may set going. */
export interface Running {
  outbox: Outbox;
  live: Live;
  tabs: Tabs;
}

/** The core with what runs beside it. */
export interface RunningCore extends Core {
  /** Show a state that was not read from the store. */
  show(snapshot: Snapshot): void;
  running: Running;
}

/** Show a sentence. */
export function say(core: Core, text: string, undo: string | null = null): void {
  core.page.message = { text, undo } satisfies AppState["message"];
}
