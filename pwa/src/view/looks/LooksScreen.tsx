/** The check lists of the event, to read beforehand: what is gone through at an inspection, where, and what is a must. */

import type { EventSetup } from "../../kit/api";
import { OTHER } from "../../report/looks";
import type { ScreenProps } from "../screen";
import { looks as words } from "../words/looks";

type ListedCheck = NonNullable<EventSetup["check_lists"]>[number];

export function LooksScreen({ state }: ScreenProps) {
  const { setup, identity } = state;
  // A set-up that an older server gave, and this phone still holds, has no rows.
  const rows = setup?.check_lists ?? [];
  const lists = Object.entries(setup?.looks ?? {});
  // What is in no group of its own stands last.
  const sorted = [...lists.filter(([group]) => group !== OTHER), ...lists.filter(([group]) => group === OTHER)];
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <p>{words.how}</p>
      {sorted.map(([group, checks]) => (
        <section class="sheet" key={group} aria-labelledby={`looks-${group}`}>
          <h2 id={`looks-${group}`}>{words.group[group] ?? group}</h2>
          <ul class="bulleted">
            {checks.map((check) => (
              <li key={check}>
                {words.named(check)} <Marks row={rows.find((row) => row.group === group && row.check === check)} />
              </li>
            ))}
          </ul>
        </section>
      ))}
      <p class="strong">{words.decide}</p>
      {setup && identity?.roles.includes("manager") && (
        <a class="button" href={`#/setup/${encodeURIComponent(setup.event)}/looks`}>
          {words.edit}
        </a>
      )}
    </div>
  );
}

function Marks({ row }: { row: ListedCheck | undefined }) {
  return (
    <>
      {row?.at && <span class="soft">{words.at[row.at]}</span>}{" "}
      {row?.must && <span class="tag must">{words.must}</span>}
    </>
  );
}
