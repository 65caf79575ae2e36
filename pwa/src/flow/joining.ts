/** Lets people in by their links, and says which of them this tab speaks as. */

import { messages } from "../kit/messages";
import { makeKey } from "../kit/signing";
import type { IdentityRecord } from "../store/db";
import { identitiesHere, keepIdentity } from "../store/identities";
import { readMeta, writeMeta } from "../store/meta";
import { type Core, say } from "./core";
import { askToKeep } from "./storage";
import { joinCodeOf } from "./route";
import { setTabChoice, tabChoice } from "./tab";

/** Pick who this tab speaks as: its own choice, else the last who spoke on this phone, else the last who joined. */
export async function pickPerson(core: Core): Promise<void> {
  const db = await core.db;
  const here = await identitiesHere(db);
  const wanted = [tabChoice("person"), await readMeta(db, "last_person")];
  const known = wanted.find((person) => here.some((one) => one.person === person));
  core.page.person = known ?? here.at(-1)?.person ?? null;
  // From here on this tab stays with that person, whoever joins in another one.
  if (core.page.person) setTabChoice("person", core.page.person);
}

/** Speak as a person who joined here; event and car stay those that the screen shows. */
export async function speakAs(core: Core, person: string): Promise<void> {
  const { setup, car } = core.snapshot().state;
  core.page.event ??= setup?.event ?? null;
  core.page.car ??= car;
  core.page.person = person;
  setTabChoice("person", person);
  await writeMeta(await core.db, "last_person", person);
  await core.refresh();
}

/**
 * Redeem a code; one that was redeemed on this phone just switches to its person. Settles when the person is kept;
 * why it failed stands in `join_problem`. Returns whether the code is spent.
 */
export async function join(core: Core, code: string, pin = ""): Promise<boolean> {
  // Fetched when it is wanted, once in a phone's life: where it can't be had, the server can't either.
  const joining = await import("../sync/join").catch(() => null);
  if (!joining) return noServer(core);
  const { askToJoin, codeHash, identityOf } = joining;
  const hash = await codeHash(code);
  const known = (await identitiesHere(await core.db)).find((one) => one.code_hash === hash);
  core.page.join_problem = null;
  if (known) return comeBack(core, known).then(() => true);
  // Whatever could fail comes before the code is spent; nothing that may ask the person is awaited after it.
  const pins = pin ? await import("./pins") : null;
  const key = await makeKey();
  const reply = await askToJoin(core.fetch, code, key);
  if ("failed" in reply) {
    core.page.join_problem = reply.failed;
    await core.refresh();
    return !reply.again;
  }
  await keepIdentity(await core.db, identityOf(reply.joined, hash, new Date(core.now()).toISOString(), key));
  askToKeep(core);
  await speakAs(core, reply.joined.person);
  await pins?.setPin(core, pin, "");
  return true;
}

async function noServer(core: Core): Promise<false> {
  core.page.join_problem = messages.joinNoServer;
  await core.refresh();
  return false;
}

/** A link that was followed here before lets its person speak again; one with a PIN is asked for it where people change. */
async function comeBack(core: Core, { person, name, pin }: IdentityRecord): Promise<void> {
  if (!pin || person === core.page.person) return speakAs(core, person);
  say(core, messages.hasPin(name));
  await core.refresh();
}

/** Follow a join link, if the address is one. A spent code leaves the address bar, so that nobody reads it there. */
export async function followJoinLink(core: Core): Promise<void> {
  const code = joinCodeOf(location.hash);
  if (code === null || !(await join(core, code))) return;
  // The app is there before the join has settled: who has gone on to another screen by then stays on it.
  if (joinCodeOf(location.hash) !== code) return;
  history.replaceState(null, "", "#/");
  core.page.hash = location.hash;
  await core.refresh();
}
