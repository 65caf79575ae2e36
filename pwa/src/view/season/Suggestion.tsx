/** One suggestion: what was observed in words, minutes before and after, and a box to tick. */

import type { EventSetup, ObservedOperation } from "../../kit/api";
import { season as words } from "../words/season";
import { number, operationLabel } from "./names";

export type Suggested = ObservedOperation & { suggested: NonNullable<ObservedOperation["suggested"]> };

interface SuggestionProps {
  one: Suggested;
  setup: EventSetup;
  chosen: boolean;
  onToggle: (on: boolean) => void;
}

export function Suggestion({ one, setup, chosen, onToggle }: SuggestionProps) {
  const name = operationLabel(setup.car_map, one);
  const { table: before, suggested: after } = one;
  const rows: [string, number, number][] = [
    [words.rates.best, before.minutes_best, after.minutes_best],
    [words.rates.likely, before.minutes_likely, after.minutes_likely],
    [words.rates.worst, before.minutes_worst, after.minutes_worst],
  ];
  return (
    <li class="stack">
      <div class="chips square">
        <label class="chip">
          <input type="checkbox" checked={chosen} onChange={(event) => onToggle(event.currentTarget.checked)} />
          <span>
            <span class="strong">{name}</span>
          </span>
        </label>
      </div>
      <p>{one.says}</p>
      <table>
        <caption class="unseen">{name}</caption>
        <thead>
          <tr>
            <th scope="col">{words.rates.minutes}</th>
            <th scope="col" class="number">
              {words.rates.before}
            </th>
            <th scope="col" class="number">
              {words.rates.after}
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([label, was, becomes]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td class="number">{number(was)}</td>
              <td class="number strong">{number(becomes)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </li>
  );
}
