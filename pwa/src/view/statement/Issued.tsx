/** A statement as it went out, word for word, and what became of its lines. */

import type { Statement } from "../../kit/api";
import { money } from "../../kit/money";
import { clockIn, dayIn, msOf } from "../../kit/time";
import { usualPaper } from "../documents/papers";
import { personName } from "../labels";
import { statement as words } from "../words/statement";
import { Incident } from "./Incident";
import type { BillProps } from "./bill";
import { Others } from "./Others";
import { Pdf } from "./Pdf";
import { Steps } from "./Steps";

export function Issued({ issued, ...props }: BillProps & { issued: Statement }) {
  const { setup } = props;
  const ms = msOf(issued.issued_at ?? "");
  const at = ms === null ? "" : `${dayIn(setup.timezone, ms)} ${clockIn(setup.timezone, ms)}`;
  const by = issued.by ? personName(setup, issued.by) : "";
  return (
    <details class="sheet">
      <summary>
        {words.issued(issued.number)} · {money(issued.totals.now, issued.currency)}
      </summary>
      <div class="stack">
        <p class="soft">{words.issuedAt(at, by)}</p>
        {issued.incidents.map((incident, place) => (
          <Incident key={incident.incident} {...props} bill={issued} incident={incident} place={place + 1} />
        ))}
        <Others {...props} bill={issued} />
        <Steps title={words.sum} steps={issued.steps} currency={issued.currency} />
        <Pdf {...props} car={issued.car} number={issued.number} paper={usualPaper(setup.timezone)} />
      </div>
    </details>
  );
}
