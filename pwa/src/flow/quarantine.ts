/** A manager's look through what the server set aside; only with the server there. */

import type { Aside, AsideGroup } from "../kit/api";
import { UserError } from "../kit/user_error";
import { setupHere } from "../store/answers";
import { call, isObject, type Reply } from "../sync/wire";
import type { Core } from "./core";
import type { AsideGroupItem, AsideItem } from "./model";
import { laterMessages } from "../kit/later_messages";

/** So many of one device are looked at one by one. */
const FEW = 5;

/** Return what was set aside, newest first. Errors: UserError without the server or the role. */
export async function asideHere(core: Core): Promise<AsideItem[]> {
  const reply = await ask(core, "GET", "/set-aside");
  if (reply.kind !== "ok" || !Array.isArray(reply.body) || !reply.body.every(isAside)) throw whyNot(reply);
  const bringer = await bringerHere(core);
  return reply.body.reverse().map((item) => ({ ...item, brought_by_person: bringer(item.brought_by) }));
}

/** Return what waits by who brought it, where that is much; a server of 0.1 knows of none. Errors: UserError. */
export async function asideGroups(core: Core): Promise<AsideGroupItem[]> {
  const reply = await ask(core, "GET", "/set-aside/groups");
  if (reply.kind === "problem" && reply.status === 404) return [];
  if (reply.kind !== "ok" || !Array.isArray(reply.body) || !reply.body.every(isGroup)) throw whyNot(reply);
  const bringer = await bringerHere(core);
  const many = reply.body.filter((group) => group.waiting > FEW);
  return many.map((group) => ({ ...group, brought_by_person: bringer(group.brought_by) }));
}

/**
 * Leave out all that a device brought, up to what was shown of it. block: no more is taken from that device. Errors:
 * UserError with what the server says; a device that was blocked stays so.
 */
export async function leaveOutGroup(core: Core, group: AsideGroup, reason: string, block: boolean): Promise<void> {
  const { brought_by, last_at: upto } = group;
  if (block && brought_by !== null) {
    const blocked = await ask(core, "DELETE", `/devices/${encodeURIComponent(brought_by)}`);
    if (blocked.kind !== "ok") throw whyNot(blocked);
  }
  const reply = await ask(core, "POST", "/set-aside/groups", { brought_by, upto, reason });
  if (reply.kind !== "ok") throw whyNot(reply);
  core.written();
}

async function bringerHere(core: Core): Promise<(device: string | null) => string | null> {
  const devices = (await setupHere(await core.db))?.answer.devices ?? [];
  const persons = new Map(devices.map((one) => [one.device, one.person]));
  return (device) => persons.get(device ?? "") ?? null;
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

function ask(core: Core, method: "GET" | "POST" | "DELETE", path: string, json?: unknown): Promise<Reply> {
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

function isGroup(value: unknown): value is AsideGroup {
  return (
    isObject(value) && Number.isInteger(value.waiting) && typeof value.last_at === "string" && isObject(value.codes)
  );
}
