/** A manager's look through what the server set aside; only with the server there. */

import type { Aside } from "../kit/api";
import { UserError } from "../kit/user_error";
import { setupHere } from "../store/answers";
import { call, isObject, type Reply } from "../sync/wire";
import type { Core } from "./core";
import type { AsideItem } from "./model";
import { laterMessages } from "../kit/later_messages";

/** Return what was set aside, newest first. Errors: UserError without the server or the role. */
export async function asideHere(core: Core): Promise<AsideItem[]> {
  const reply = await ask(core, "GET", "/set-aside");
  if (reply.kind !== "ok" || !Array.isArray(reply.body) || !reply.body.every(isAside)) throw whyNot(reply);
  const devices = (await setupHere(await core.db))?.answer.devices ?? [];
  const persons = new Map(devices.map((one) => [one.device, one.person]));
  return reply.body
    .reverse()
    .map((item) => ({ ...item, brought_by_person: persons.get(item.brought_by ?? "") ?? null }));
}

/** Take an entry into the log after all, or leave it out. Errors: UserError with what the server says. */
export async function reviewAside(
  core: Core,
  sha256: string,
  verdict: "accepted" | "discarded",
  reason: string,
): Promise<void> {
  const reply = await ask(core, "POST", `/set-aside/${sha256}/review`, { verdict, reason });
  if (reply.kind !== "ok") throw whyNot(reply);
  core.written();
}

function ask(core: Core, method: "GET" | "POST", path: string, json?: unknown): Promise<Reply> {
  return call(core.fetch, { method, path, token: core.snapshot().speaking?.token ?? null, json });
}

function whyNot(reply: Reply): UserError {
  if (reply.kind === "problem") return new UserError(`${reply.problem.title}. ${reply.problem.detail ?? ""}`.trim());
  return new UserError(laterMessages.asideNoServer);
}

function isAside(value: unknown): value is Aside {
  if (!isObject(value)) return false;
  return ["sha256", "raw", "code", "what", "received_at"].every((name) => typeof value[name] === "string");
}
