/** What a car's customer is charged under the agreement: the draft step by step, what is not charged, what was issued. */

import type { Statements } from "../../kit/api";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { usualPaper } from "../documents/papers";
import { heardAt } from "../labels";
import type { CarScreen } from "../screen";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";
import { Incident } from "./Incident";
import { Issued } from "./Issued";
import { NotCharged } from "./NotCharged";
import { Others } from "./Others";
import { Pdf } from "./Pdf";
import { Steps } from "./Steps";
import "./statement.css";

export function StatementScreen({ state, setup, actions }: CarScreen) {
  const manager = state.identity?.roles.includes("manager");
  const heard = state.statements;
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      {!manager && <p>{words.onlyManager}</p>}
      {manager && !heard && <p>{words.none}</p>}
      {manager && heard && (
        <>
          <p class="soft">{words.heard(heardAt(setup, heard.heard_at, state.now))}</p>
          <Bill statements={heard.answer} setup={setup} actions={actions} />
        </>
      )}
    </div>
  );
}

function Bill({ statements, ...props }: BillProps & { statements: Statements }) {
  const { draft, issued } = statements;
  return (
    <>
      {draft ? <Draft {...props} draft={draft} /> : <p>{words.noAgreement}</p>}
      {issued.length > 0 && <h2>{words.issuedTitle}</h2>}
      {[...issued].reverse().map((one) => (
        <Issued key={one.entry} {...props} issued={one} />
      ))}
    </>
  );
}

function Draft({ draft, ...props }: BillProps & { draft: NonNullable<Statements["draft"]> }) {
  const { setup, actions } = props;
  const { busy, problem, run } = usePending();
  const isNew = draft.supplements === null || Number(draft.totals.now) !== 0;
  return (
    <section class="stack" aria-labelledby="draft-title">
      <h2 id="draft-title">{words.draft(draft.number)}</h2>
      <p>{words.head(draft.customer, draft.agreement)}</p>
      {draft.supplements !== null && <p>{words.supplements(draft.supplements)}</p>}
      <p class="soft">{words.caution}</p>
      {draft.incidents.map((incident, at) => (
        <Incident key={incident.incident} {...props} bill={draft} incident={incident} place={at + 1} />
      ))}
      <Others {...props} bill={draft} />
      <NotCharged {...props} lines={draft.not_charged} />
      <section class="sheet" aria-labelledby="sum-title">
        <h3 id="sum-title">{words.sum}</h3>
        <Steps title={words.sum} steps={draft.steps} currency={draft.currency} />
      </section>
      <p class="soft">{isNew ? words.issueHint : words.nothingNew}</p>
      <button
        type="button"
        class="button main wide"
        disabled={busy || !isNew}
        onClick={() => run(() => actions.issueStatement(draft))}
      >
        {words.issue(draft.number)}
      </button>
      <ProblemLine text={problem} />
      <Pdf {...props} car={draft.car} number={draft.number} paper={usualPaper(setup.timezone)} />
    </section>
  );
}
