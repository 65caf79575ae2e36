/** What is not charged, each with the reason; a manager may decide otherwise. */

import type { Statement } from "../../kit/api";
import { Photos } from "../bits/Photo";
import { statement as words } from "../words/statement";
import { Decide } from "./Decide";
import type { BillProps } from "./bill";

/** Marks of the hand-over, and other charges, are no cost lines: what they are to the agreement is not decided here. */
const isMark = (line: string) => line.startsWith("hand-over/") || line.startsWith("other/");

export function NotCharged({ lines, ...props }: BillProps & { lines: Statement["not_charged"] }) {
  if (!lines.length) return null;
  return (
    <details class="sheet">
      <summary>{words.notCharged(lines.length)}</summary>
      <ul class="stack bill-lines">
        {lines.map((one) => (
          <li key={one.line} class="stack">
            <p>
              <span class="strong">{one.says}</span>
              <br />
              <span class="soft">{one.why}</span>
            </p>
            <Photos photos={one.photos} photoUrl={props.actions.photoUrl} />
            {!isMark(one.line) && <Decide {...props} line={one.line} parts={[]} />}
          </li>
        ))}
      </ul>
    </details>
  );
}
