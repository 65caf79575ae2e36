/** PINs of the people on this phone: kept here only, checked here only; in no entry, log or call. */

import { afterTry, isSamePin, keptPin, secondsToWait } from "../kit/pin";
import { isPin } from "../kit/pin_shape";
import { UserError } from "../kit/user_error";
import type { IdentityRecord } from "../store/db";
import { changeIdentity, identitiesHere } from "../store/identities";
import type { Core } from "./core";
import { laterMessages } from "../kit/later_messages";

/** Keep a PIN for who speaks; one that is there already has to be said first. Errors: UserError. */
export async function setPin(core: Core, pin: string, old: string): Promise<void> {
  const speaking = await speakingHere(core);
  if (!isPin(pin)) throw new UserError(laterMessages.pinShape);
  if (speaking.pin) await checkPin(core, speaking.device, old);
  const kept = await keptPin(pin);
  await changeIdentity(await core.db, speaking.device, () => ({ pin: kept }));
  await core.refresh();
}

/** Let through only who speaks, by the own PIN. Errors: UserError where there is none, it is another, or it is too soon. */
export async function demandOwnPin(core: Core, pin: string): Promise<void> {
  const speaking = await speakingHere(core);
  if (!speaking.pin) throw new UserError(laterMessages.pinNone);
  await checkPin(core, speaking.device, pin);
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
