/** A log that is being rebuilt: what was taken on somebody's word, and its end; and invites that somebody knows of. */

import type { RebuildDone } from "../kit/api";
import { laterMessages } from "../kit/later_messages";
import { UserError } from "../kit/user_error";
import { call, isObject, type Reply } from "../sync/wire";
import type { Core } from "./core";

/** Return what was done in rebuilds of this log, oldest first. Errors: UserError without the server. */
export async function rebuildDone(core: Core): Promise<RebuildDone[]> {
  const reply = await ask(core, "GET", "/rebuild");
  if (reply.kind !== "ok" || !isObject(reply.body) || !Array.isArray(reply.body.done)) throw whyNot(reply);
  return reply.body.done;
}

/** End the rebuild, as an owner. Errors: UserError with what the server says. */
export async function endRebuild(core: Core): Promise<void> {
  await demand(core, "DELETE", "/rebuild");
}

/** Say that an invite for who speaks, or for anybody as an owner, is known. Errors: UserError with what the server says. */
export async function knowInvite(core: Core, invite: number): Promise<void> {
  await demand(core, "POST", `/invites/${invite}/known`);
}

async function demand(core: Core, method: "DELETE" | "POST", path: string): Promise<void> {
  const reply = await ask(core, method, path);
  if (reply.kind !== "ok") throw whyNot(reply);
  core.written();
}

function ask(core: Core, method: "GET" | "DELETE" | "POST", path: string): Promise<Reply> {
  return call(core.fetch, { method, path, token: core.snapshot().speaking?.token ?? null });
}

function whyNot(reply: Reply): UserError {
  if (reply.kind === "problem") return new UserError(`${reply.problem.title}. ${reply.problem.detail ?? ""}`.trim());
  return new UserError(laterMessages.toldNoServer);
}
