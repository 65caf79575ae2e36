/** One hit of a statement: its lines, and how its sum comes about. */

import type { Statement, StatementIncident } from "../../kit/api";
import { personName } from "../labels";
import { statement as words } from "../words/statement";
import { Line } from "./Line";
import type { BillProps } from "./bill";
import { Steps } from "./Steps";

interface IncidentProps extends BillProps {
  bill: Statement;
  incident: StatementIncident;
  place: number;
}

export function Incident({ bill, incident, place, ...props }: IncidentProps) {
  const title = words.incident(place, incident.title);
  const id = `incident-${bill.number}-${place}`;
  const said = [
    incident.driver && words.drove(personName(props.setup, incident.driver)),
    incident.reported_at_the_time ? words.atTheTime : words.later,
    incident.others_involved && words.others,
  ];
  return (
    <section class="sheet" aria-labelledby={id}>
      <h3 id={id}>{title}</h3>
      <p class="soft">{said.filter(Boolean).join(" · ")}</p>
      <Steps title={words.sumOf(title)} steps={incident.steps} currency={bill.currency} />
      <details>
        <summary>{words.lines(incident.lines.length)}</summary>
        <ul class="stack bill-lines">
          {incident.lines.map((line) => (
            <Line key={line.line} {...props} bill={bill} line={line} />
          ))}
        </ul>
      </details>
    </section>
  );
}
