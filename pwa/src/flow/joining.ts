/** Lets people in by their links, and says which of them this tab speaks as. */

import { messages } from "../kit/messages";
import type { Db } from "../store/db";
import { identitiesHere } from "../store/identities";
import { readMeta, writeMeta } from "../store/meta";
import { type Core, say } from "./core";
import { joinCodeOf } from "./route";
import { forgetOlderPerson, tabNumber } from "./tab";

/** Tabs whose person is kept: more are long closed. */
const MOST_TABS = 20;

/** Pick who this tab speaks as: its own choice, else the last who spoke on this phone, else the last who joined. */
export async function pickPerson(core: Core): Promise<void> {
  const db = await core.db;
  const [here, tabs, last] = await Promise.all([identitiesHere(db), readMeta(db, "tabs"), readMeta(db, "last_person")]);
  const known = [tabs[tabNumber()], last].find((person) => here.some((one) => one.person === person));
  core.page.person = known ?? here.at(-1)?.person ?? null;
}

/** Keep that this tab stays with its person, whoever joins in another one. A full phone keeps no choice: what is there is shown and sent all the same. */
export async function stayWithPerson(core: Core): Promise<void> {
  const { person } = core.page;
  forgetOlderPerson();
  if (person) await keepChoice(await core.db, person).catch(() => {});
}

// Not in the tab's own storage: what stands there anybody writes who holds the phone, and a PIN would be passed by.
async function keepChoice(db: Db, person: string): Promise<void> {
  const { [tabNumber()]: _, ...others } = await readMeta(db, "tabs");
  const newest = Object.entries(others).slice(1 - MOST_TABS);
  await writeMeta(db, "tabs", Object.fromEntries([...newest, [tabNumber(), person]]));
}

/** Speak as a person who joined here; event and car stay those that the screen shows. */
export async function speakAs(core: Core, person: string): Promise<void> {
  const { setup, car } = core.snapshot().state;
  core.page.event ??= setup?.event ?? null;
  core.page.car ??= car;
  // What one person was told is not for the next.
  if (core.page.person !== person) core.page.message = null;
  core.page.person = person;
  await keepChoice(await core.db, person);
  await writeMeta(await core.db, "last_person", person);
  await core.refresh();
}

/**
 * Redeem a code; one that was redeemed on this phone just switches to its person. Settles when the person is kept;
 * why it failed stands in `join_problem`. Returns whether the code is spent.
 */
export async function join(core: Core, code: string, pin = ""): Promise<boolean> {
  // Fetched when it is wanted, once in a phone's life: where it can't be had, the server can't either.
  const joining = await import("./join_by_code").catch(() => null);
  if (joining) return joining.joinByCode(core, code, pin);
  core.page.join_problem = messages.joinNoServer;
  await core.refresh();
  return false;
}

/** Follow a join link, if the address is one. A spent code leaves the address bar, so that nobody reads it there. */
export async function followJoinLink(core: Core): Promise<void> {
  const code = joinCodeOf(location.hash);
  if (code === null) return;
  // Whoever was here before is shown no longer, however long the server takes.
  await core.refresh();
  if (!(await join(core, code))) return;
  // Where nobody is here yet, the page of joining says it.
  if (core.page.join_problem !== null && core.page.person !== null) say(core, core.page.join_problem);
  // The app is there before the join has settled: who has gone on to another screen by then stays on it.
  if (joinCodeOf(location.hash) !== code) return;
  history.replaceState(null, "", "#/");
  core.page.hash = location.hash;
  await core.refresh();
}
