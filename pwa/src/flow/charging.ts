/** Puts down what the manager says about a bill. */

import type { Statement } from "../kit/api";
import { laterMessages } from "../kit/later_messages";
import { entriesOf } from "../report/lists";
import {
  type AddedCharge,
  addedOf,
  type ChargeDecision,
  contentOf,
  decisionsOf,
  type LineStanding,
  settledOf,
} from "../report/statement";
import type { Core } from "./core";
import { newEntry } from "./entry";
import { fail, save } from "./save";

const here = (core: Core) => entriesOf(core.snapshot().held);

/** Say what a cost line is to the agreement. */
export async function decideCharge(core: Core, line: string, decision: ChargeDecision): Promise<void> {
  const data = { ...decision, replaces: decisionsOf(line, here(core)) };
  await save(core, (by, now) => [newEntry("charge.decided", line, data, by, now)], laterMessages.whoPays);
}

/** Charge something besides damage; `line`: the line that it takes the place of, or null. */
export async function addCharge(core: Core, line: string | null, added: AddedCharge): Promise<void> {
  const data = { ...added, replaces: line === null ? [] : addedOf(line, here(core)) };
  await save(core, (by, now) => [newEntry("charge.added", line, data, by, now)], laterMessages.chargeAdded);
}

/** Issue a statement as its draft stands here. Errors: UserError where it is too long for one entry. */
export async function issueStatement(core: Core, draft: Statement): Promise<void> {
  const content = contentOf(draft);
  if (!content) return fail(core, laterMessages.statementLong);
  const { number, supplements, agreement } = draft;
  const data = { number, supplements, agreement, content };
  const done = laterMessages.statementIssued(number);
  await save(core, (by, now) => [newEntry("statement.issued", null, data, by, now)], done);
}

/** Say what became of a line of an issued statement. */
export async function settleLine(
  core: Core,
  statement: string,
  line: string,
  standing: LineStanding,
  reason: string,
): Promise<void> {
  const data = { line, standing, reason, replaces: settledOf(statement, line, here(core)) };
  const build = newEntry.bind(null, "statement.line_settled", statement, data);
  await save(core, (by, now) => [build(by, now)], laterMessages.settled(standing));
}
