/** A line of a statement: what it comes to and why, photos before and after, and what the manager says of it. */

import type { Statement, StatementLine } from "../../kit/api";
import { money } from "../../kit/money";
import { Photos } from "../bits/Photo";
import { timeText } from "../place/shown";
import { statement as words } from "../words/statement";
import { Decide } from "./Decide";
import { Settle } from "./Settle";
import type { BillProps } from "./bill";

export function Line({ bill, line, setup, actions }: BillProps & { bill: Statement; line: StatementLine }) {
  const said = [
    line.charge === "misuse" && words.charge.misuse,
    !line.repaired && words.estimated,
    line.mechanic_minutes > 0 && words.work(timeText(line.mechanic_minutes)),
    line.standing && words.standing[line.standing],
  ];
  return (
    <li class="stack">
      <p>
        <span class="strong">{line.says}</span>
        <br />
        {money(line.amount, bill.currency)} <span class="soft">{said.filter(Boolean).join(" · ")}</span>
      </p>
      <Parts line={line} currency={bill.currency} />
      {line.tag && <p class="soft">{words.kept(line.tag.tag, line.tag.shelf)}</p>}
      <Pair title={words.before} photos={line.photos_before} photoUrl={actions.photoUrl} />
      <Pair title={words.after} photos={line.photos} photoUrl={actions.photoUrl} />
      {bill.entry === null ? (
        <Decide line={line.line} parts={line.parts} setup={setup} actions={actions} />
      ) : (
        <Settle statement={bill.entry} line={line.line} setup={setup} actions={actions} />
      )}
    </li>
  );
}

function Parts({ line, currency }: { line: StatementLine; currency: string }) {
  if (!line.parts.length) return null;
  return (
    <ul class="bulleted">
      {line.parts.map((part) => (
        <li key={part.part}>
          {[
            `${part.qty} × ${part.description || part.part}`,
            part.used_percent > 0 && words.used(String(part.used_percent)),
            part.included > 0 && words.included(String(part.included)),
            money(part.charged, currency),
          ]
            .filter(Boolean)
            .join(" · ")}
        </li>
      ))}
    </ul>
  );
}

interface PairProps {
  title: string;
  photos: string[];
  photoUrl: BillProps["actions"]["photoUrl"];
}

function Pair({ title, photos, photoUrl }: PairProps) {
  if (!photos.length) return null;
  return (
    <div>
      <p class="soft">{title}</p>
      <Photos photos={photos} photoUrl={photoUrl} />
    </div>
  );
}
