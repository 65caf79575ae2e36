/** The plans that are at hand, as two or three cards of which one is worked by. */

import type { ComponentChildren } from "preact";
import type { Choice } from "../../report/plan";
import { plan as words } from "../words/plan";

export interface ChoiceCard {
  choice: Choice;
  name: string;
  /** What it leaves and when it is done, a line for each. */
  lines: string[];
  /** How likely it is kept, or how late it is. */
  figure: ComponentChildren;
  late: boolean;
  /** That something leaves on hold by it. */
  holds: string | null;
}

interface ChoiceCardsProps {
  cards: ChoiceCard[];
  chosen: Choice;
  onPick: (choice: Choice) => void;
}

export function ChoiceCards({ cards, chosen, onPick }: ChoiceCardsProps) {
  if (cards.length < 2) return null;
  return (
    <fieldset class="plan-choices">
      <legend class="unseen">{words.choice.legend}</legend>
      {cards.map((card) => (
        <label key={card.choice} class="plan-choice">
          <input
            type="radio"
            name="plan-choice"
            checked={card.choice === chosen}
            onChange={() => onPick(card.choice)}
          />
          <span class="plan-choice-lines">
            <b>{card.name}</b>
            {card.lines.map((line) => (
              <span key={line}>{line}</span>
            ))}
            {card.holds !== null && <span class="warn">{card.holds}</span>}
          </span>
          <b class={card.late ? "warn" : ""}>{card.figure}</b>
        </label>
      ))}
    </fieldset>
  );
}
