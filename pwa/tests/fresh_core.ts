/** What every action needs, over a real store, without a page or a network. */

import type { Core } from "../src/flow/core";
import { emptyState, type Page, readSnapshot, type Snapshot } from "../src/flow/state";
import type { Db } from "../src/store/db";
import { nothingKnown } from "../src/store/put_back";

export function freshCore(db: Db, person: string, now: () => number): Core {
  const page: Page = {
    person,
    event: null,
    car: null,
    hash: "",
    persisted: null,
    space: null,
    install: null,
    keeping: { state: "kept" },
    following: null,
    update_ready: false,
    message: null,
    join_problem: null,
    fetched: null,
    planned: null,
    spares_wish: null,
    own_queue: null,
    position: null,
  };
  let read: Snapshot = { state: emptyState(now()), speaking: null, held: [], own_wanted: null, known: nothingKnown() };
  return {
    db: Promise.resolve(db),
    page,
    fetch: () => Promise.reject(new TypeError("no network")),
    now,
    snapshot: () => read,
    refresh: async () => {
      read = await readSnapshot(db, page, now());
    },
    written() {},
    askAnswers: async () => {},
  };
}
