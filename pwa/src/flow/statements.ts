/** What the manager puts down about a bill. */

import type { Core } from "./core";
import { newEntry } from "./entry";
import type { Actions } from "./model";
import { fail, save } from "./save";
import { seldom } from "../kit/seldom";

type StatementActions = Pick<Actions, "decideCharge" | "issueStatement" | "settleLine">;

/** Make the actions; their rules are fetched when they are first used. */
export function statementActions(core: Core): StatementActions {
  const entries = () => core.snapshot().held.map((one) => one.entry);
  return {
    async decideCharge(line, decision) {
      const { decisionsOf } = await import("../report/statement");
      const data = { ...decision, replaces: decisionsOf(line, entries()) };
      await save(core, (by, now) => [newEntry("charge.decided", line, data, by, now)], seldom.whoPays);
    },
    async issueStatement(draft) {
      const { contentOf } = await import("../report/statement");
      const content = contentOf(draft);
      if (!content) return fail(core, seldom.statementLong);
      const { number, supplements, agreement } = draft;
      const data = { number, supplements, agreement, content };
      const done = seldom.statementIssued(number);
      await save(core, (by, now) => [newEntry("statement.issued", null, data, by, now)], done);
    },
    async settleLine(statement, line, standing, reason) {
      const { settledOf } = await import("../report/statement");
      const data = { line, standing, reason, replaces: settledOf(statement, line, entries()) };
      const build = newEntry.bind(null, "statement.line_settled", statement, data);
      await save(core, (by, now) => [build(by, now)], seldom.settled(standing));
    },
  };
}
