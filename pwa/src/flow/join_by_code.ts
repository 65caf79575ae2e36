/** Lets somebody in by the code of an invitation. Loaded when it is first used: once in a phone's life. */

import { makeKey } from "../kit/device_key";
import { messages } from "../kit/messages";
import type { IdentityRecord } from "../store/db";
import { identitiesHere, keepIdentity } from "../store/identities";
import { askToJoin, codeHash, identityOf } from "../sync/join";
import { type Core, say } from "./core";
import { speakAs } from "./joining";
import { askToKeep } from "./storage";

/** Redeem a code: see `join`. */
export async function joinByCode(core: Core, code: string, pin: string): Promise<boolean> {
  const hash = await codeHash(code);
  const here = await identitiesHere(await core.db);
  const known = here.find((one) => one.code_hash === hash);
  core.page.join_problem = null;
  if (known) return comeBack(core, known).then(() => true);
  // Whatever could fail comes before the code is spent; nothing that may ask the person is awaited after it.
  const pins = pin ? await import("./pins") : null;
  const key = await makeKey();
  const second = pins && key ? await pins.newSecondKey(pin) : null;
  const beside = here.find((one) => !one.refused)?.device;
  const reply = await askToJoin(core.fetch, code, key, { second_key: second?.public, beside });
  if ("failed" in reply) {
    core.page.join_problem = reply.failed;
    await core.refresh();
    return !reply.again;
  }
  await keepIdentity(await core.db, identityOf(reply.joined, hash, new Date(core.now()).toISOString(), key));
  askToKeep(core);
  await speakAs(core, reply.joined.person);
  await pins?.keepPin(core, reply.joined.device, pin, reply.second ? second : null);
  return true;
}

/** A link that was followed here before lets its person speak again; one with a PIN is asked for it where people change. */
async function comeBack(core: Core, { person, name, pin }: IdentityRecord): Promise<void> {
  if (!pin || person === core.page.person) return speakAs(core, person);
  say(core, messages.hasPin(name));
  await core.refresh();
}
