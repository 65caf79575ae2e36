/** Keeps drafts of set-ups, has the server look at files, and puts them in force. Loaded when it is first used. */

import { UserError } from "../kit/user_error";
import type { Files, Sent } from "../setup/files";
import { dropDraft, keepDraft, type SetupDraft } from "../store/setup_drafts";
import { call, isObject, type Reply } from "../sync/wire";
import type { Core, RunningCore } from "./core";
import type { SetupChecked } from "./model";
import { laterMessages } from "../kit/later_messages";

/** A rate table of many rows takes its time on a weak signal. */
const TIMEOUT_MS = 60_000;

/** Keep a draft, then show it. */
export async function keepSetupDraft(core: Core, draft: SetupDraft): Promise<void> {
  await keepDraft(await core.db, { ...draft, saved_at: new Date(core.now()).toISOString() });
  await core.refresh();
}

/** Drop a draft. */
export async function dropSetupDraft(core: Core, event: string): Promise<void> {
  await dropDraft(await core.db, event);
  await core.refresh();
}

/**
 * Have the server look at files before they are in force. `version`: that was edited. Errors: UserError with why it
 * could not.
 */
export async function checkSetup(
  core: Core,
  event: string,
  sent: Sent,
  against: string | null,
  version: string,
): Promise<SetupChecked> {
  const path = `/events/${encodeURIComponent(event)}/files/check`;
  const reply = await ask(core, "POST", path, { ...sent, against, version });
  if (reply.kind !== "ok" || !isChecked(reply.body)) throw whyNot(reply);
  return reply.body;
}

/**
 * Put files in force, drop the draft that they came from, and show the event. `version`: that was edited, "" for a
 * new event. Errors: UserError with what the server says; the draft is kept then.
 */
export async function putSetup(
  core: RunningCore,
  event: string,
  sent: Sent,
  version: string,
  draft: string,
): Promise<void> {
  const reply = await ask(core, "PUT", `/events/${encodeURIComponent(event)}`, { ...sent, version });
  if (reply.kind === "problem" && reply.status === 409) await core.askAnswers(true);
  if (reply.kind !== "ok" || !isObject(reply.body) || reply.body.event !== event) throw whyNot(reply);
  await dropDraft(await core.db, draft);
  await core.askAnswers(true);
  core.written();
}

/** Return the set-up files of the sample that ships with the server. Errors: UserError with why they could not be had. */
export async function sampleFiles(core: Core): Promise<Files> {
  const reply = await ask(core, "GET", "/sample");
  if (reply.kind !== "ok" || !isObject(reply.body) || !isObject(reply.body.files)) throw whyNot(reply);
  return reply.body.files as Files;
}

function ask(core: Core, method: "GET" | "POST" | "PUT", path: string, json?: unknown): Promise<Reply> {
  const token = core.snapshot().speaking?.token ?? null;
  return call(core.fetch, { method, path, token, json, timeout_ms: TIMEOUT_MS });
}

function whyNot(reply: Reply): UserError {
  if (reply.kind !== "problem") return new UserError(laterMessages.draftNoServer);
  return new UserError(`${reply.problem.title}. ${reply.problem.detail ?? ""}`.trim());
}

function isChecked(value: unknown): value is SetupChecked {
  return isObject(value) && Array.isArray(value.faults) && Array.isArray(value.difference);
}
