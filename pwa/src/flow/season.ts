/** Asks what the season teaches, and puts chosen minutes in force. Loaded when it is first used. */

import type { Accepted, OperationName, Problem } from "../kit/api";
import { UserError } from "../kit/user_error";
import type { SparesWish } from "../report/season";
import type { Asked, Deps } from "../sync/answers";
import { fetchObserved, fetchSeason, fetchSpares, postAccept, sparesProblem } from "../sync/season";
import type { Core } from "./core";
import { laterMessages } from "../kit/later_messages";

/** Fetch all that the season's screen shows of an event. */
export async function askSeason(core: Core, deps: Deps, token: string, event: string): Promise<Asked[]> {
  return [
    await fetchSeason(deps, token),
    await fetchObserved(deps, token, event),
    await fetchSpares(deps, token, event, core.page.spares_wish),
  ];
}

/** Put suggested minutes in force. Errors: UserError with what the server said, and what to do. */
export async function acceptRates(core: Core, version: string, operations: OperationName[]): Promise<Accepted> {
  const { speaking } = core.snapshot();
  if (!speaking) throw new UserError(laterMessages.seasonNobody);
  const taken = await postAccept(core.fetch, speaking.token, version, operations);
  // Whatever came of it, the screen is to show the table as it is now.
  await core.askAnswers(true);
  if ("accepted" in taken) return taken.accepted;
  if (taken.kind === "unreachable") throw new UserError(laterMessages.ratesNoServer);
  throw new UserError(
    taken.status === 409 ? `${laterMessages.ratesChanged} (${said(taken.problem)})` : said(taken.problem),
  );
}

/** Have the spares calculated for an event of such length and cars. Errors: UserError with why they are not. */
export async function askSpares(core: Core, wish: SparesWish): Promise<void> {
  const { speaking, state } = core.snapshot();
  if (!speaking || !state.setup) throw new UserError(laterMessages.reckonNoSetup);
  const { event } = state.setup;
  const deps = { db: await core.db, fetch: core.fetch, now: () => core.now() };
  const asked = await fetchSpares(deps, speaking.token, event, wish);
  if (asked === "unreachable") throw new UserError(laterMessages.reckonNoServer);
  if (asked === "refused" || asked === "failed") {
    const problem = await sparesProblem(core.fetch, speaking.token, event, wish);
    throw new UserError(problem ? said(problem) : laterMessages.reckonNoServer);
  }
  core.page.spares_wish = wish;
  await core.refresh();
}

const said = (problem: Problem) => `${problem.title}. ${problem.detail ?? ""}`.trim();
