/** PINs of the people on this phone: kept here only, checked here only; in no entry, log or call. */

import { afterTry, isSamePin, keptPin, secondsToWait } from "../kit/pin";
import { isPin } from "../kit/pin_shape";
import { UserError } from "../kit/user_error";
import type { IdentityRecord } from "../store/db";
import { changeIdentity, identitiesHere } from "../store/identities";
import type { Core } from "./core";
import { laterMessages } from "../kit/later_messages";
import { makeSecondKey, relocked, type SecondKey, unlocked } from "../kit/second_key";
import { call } from "../sync/wire";

/**
 * Keep a PIN for who speaks; one that is there already has to be said first. A first one is chosen just after joining,
 * while the server takes the key that it unlocks. Errors: UserError.
 */
export async function setPin(core: Core, pin: string, old: string): Promise<void> {
  const speaking = await speakingHere(core);
  if (!isPin(pin)) throw new UserError(laterMessages.pinShape);
  if (speaking.pin) await checkPin(core, speaking.device, old);
  const second = speaking.second ? await relocked(speaking.second, old, pin) : await firstKey(core, speaking, pin);
  const kept = await keptPin(pin);
  await changeIdentity(await core.db, speaking.device, () => ({ pin: kept, second }));
  await core.refresh();
}

// Who has a PIN of an older app goes on with it, without a key of its own, until joining again.
async function firstKey(core: Core, speaking: IdentityRecord, pin: string): Promise<SecondKey | null> {
  const made = speaking.pin || !speaking.key ? null : await makeSecondKey(pin);
  if (!made) return null;
  const { token } = speaking;
  const reply = await call(core.fetch, { method: "PUT", path: "/second-key", token, json: made.public });
  if (reply.kind === "ok") return made;
  if (reply.kind !== "problem") throw new UserError(laterMessages.pinNoServer);
  // A server of 0.1 knows of no such key: the PIN counts on this phone alone, as it did.
  if (reply.status === 404) return null;
  throw new UserError(`${reply.problem.title}. ${reply.problem.detail ?? ""}`.trim());
}

/** Make the key of a PIN that is chosen at joining; null where the page may not sign. */
export const newSecondKey = makeSecondKey;

/** Keep the PIN that somebody chose at joining, with its key, which the server has. */
export async function keepPin(core: Core, device: string, pin: string, second: SecondKey | null): Promise<void> {
  const kept = await keptPin(pin);
  await changeIdentity(await core.db, device, () => ({ pin: kept, second }));
  await core.refresh();
}

/**
 * Let through only who speaks, by the own PIN; return the key that it unlocks, null where the device has none. Errors:
 * UserError where there is no PIN, it is another, or it is too soon.
 */
export async function demandOwnPin(core: Core, pin: string): Promise<CryptoKey | null> {
  const speaking = await speakingHere(core);
  if (!speaking.pin) throw new UserError(laterMessages.pinNone);
  await checkPin(core, speaking.device, pin);
  return speaking.second ? unlocked(speaking.second, pin) : null;
}

/** Check the PIN of somebody on this phone, and count the try. Errors: UserError. */
export async function checkPin(core: Core, device: string, pin: string): Promise<void> {
  const db = await core.db;
  const identity = (await identitiesHere(db)).find((one) => one.device === device);
  if (!identity) throw new UserError(laterMessages.gone);
  const kept = identity.pin;
  if (!kept) return;
  const wait_s = secondsToWait(kept, core.now());
  if (wait_s > 0) throw new UserError(laterMessages.pinWait(wait_s));
  const isRight = await isSamePin(pin, kept);
  const tried = await changeIdentity(db, device, (held) =>
    held.pin ? { pin: afterTry(held.pin, isRight, core.now()) } : {},
  );
  if (isRight) return;
  const next_s = tried?.pin ? secondsToWait(tried.pin, core.now()) : 0;
  throw new UserError(laterMessages.pinWrong(identity.name, next_s));
}

async function speakingHere(core: Core): Promise<IdentityRecord> {
  const device = core.snapshot().speaking?.device;
  const speaking = (await identitiesHere(await core.db)).find((one) => one.device === device);
  if (!speaking) throw new UserError(laterMessages.gone);
  return speaking;
}
