/** Makes a join link for a person, with a code that another phone's camera reads. Loaded when it is first used. */

import encodeQR from "qr";
import { UserError } from "../kit/user_error";
import { call, isObject } from "../sync/wire";
import type { Core } from "./core";
import type { Invited } from "./model";
import { laterMessages } from "../kit/later_messages";

/** Modules of white around a code (ISO/IEC 18004, 6.3.8). */
const QUIET = 4;

/** Ask for a join link; it works once and for a week. Errors: UserError with why there is none. */
export async function invitePerson(core: Core, person: string): Promise<Invited> {
  const token = core.snapshot().speaking?.token ?? null;
  const reply = await call(core.fetch, { method: "POST", path: "/invites", token, json: { person } });
  if (reply.kind === "problem") throw new UserError(`${reply.problem.title}. ${reply.problem.detail ?? ""}`.trim());
  if (reply.kind !== "ok" || !isObject(reply.body)) throw new UserError(laterMessages.inviteNoServer);
  const { link, code } = reply.body;
  if (typeof link !== "string" || typeof code !== "string") throw new UserError(laterMessages.inviteNoServer);
  return { person, link, code, drawn: encodeQR(link, "raw", { ecc: "medium", border: QUIET }) };
}
