/** What phones' own numbers tell: entries that have not come in, and phones that were copied. */

import type { AppState } from "../../flow/model";
import { Icon } from "../bits/Icon";
import { me as words } from "../words/me";

export function Numbers({ state }: { state: AppState }) {
  if (state.gaps.length === 0) return null;
  const nameOf = (person: string) => state.setup?.people.find((one) => one.person === person)?.name ?? person;
  const texts = state.gaps.flatMap(({ device, person, missing, twice }) => [
    ...(missing.length > 0 ? [words.missing(nameOf(person), device, missing)] : []),
    ...(twice.length > 0 ? [words.twice(nameOf(person), device, twice)] : []),
  ]);
  return (
    <section class="sheet" aria-labelledby="numbers-title">
      <h2 id="numbers-title">{words.numbers}</h2>
      <p class="soft">{words.numbersHow}</p>
      <ul class="stack">
        {texts.map((text) => (
          <li key={text} class="status-line">
            <Icon name="attention" />
            <span>{text}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
