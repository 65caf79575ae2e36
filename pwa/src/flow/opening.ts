/** What is on the screen while a season's entries are still being read. */

import { giveWay } from "../kit/pauses";
import { holdsMany } from "../store/pages";
import type { RunningCore } from "./core";
import { readSnapshot } from "./state";

/** Show the log where its entries are many: the drawing needs none of them, and is tapped while they are read. */
export async function showFirst(core: RunningCore): Promise<void> {
  const db = await core.db;
  if (!(await holdsMany(db.transaction("meta")))) return;
  const first = await readSnapshot(db, core.page, Date.now(), true);
  const { identity, car, route } = first.state;
  if (!identity || !car || route.screen !== "log" || route.subject) return;
  core.show(first);
  // Time for the frame that shows it, and for what a first tap wants.
  await new Promise((done) => setTimeout(done, 30));
  await giveWay();
}
