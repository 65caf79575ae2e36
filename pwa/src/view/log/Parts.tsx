/** What is damaged in the chosen zone, and how bad: part chips, then one row of conditions for each. */

import type { CarMap, Condition, ReportBody } from "../../kit/api";
import { AnyOf, OneOf } from "../bits/Chips";
import { useOpen } from "../bits/useOpen";
import { componentLabel, conditionLabel } from "../labels";
import { log } from "../words/log";
import { toggled, withCondition } from "./draft";
import { componentsOf, conditionChips, IN_SIGHT } from "./likely";

interface Parts {
  map: CarMap;
  draft: ReportBody;
  /** Parts that were found bad last: they are marked where they stand, and in sight. */
  last?: string[];
  onChange: (draft: ReportBody) => void;
}

export function Parts({ map, draft, last = [], onChange }: Parts) {
  const others = useOpen();
  const chosen = draft.findings.map((one) => one.component);
  const listed = draft.zone === null ? [] : componentsOf(map, draft.zone);
  const inSight = (name: string, place: number) => place < IN_SIGHT || chosen.includes(name) || last.includes(name);
  const shown = others.isOpen ? listed : listed.filter(inSight);
  const again = listed.filter((name) => last.includes(name));
  const unlisted = chosen.filter((name) => !listed.includes(name));
  return (
    <div class="stack">
      <AnyOf
        legend={log.parts}
        options={[...shown, ...unlisted].map((value) => ({ value, label: componentLabel(map, value) }))}
        chosen={chosen}
        marked={again}
        note={again.length > 0 ? log.lastMarked : undefined}
        onToggle={(name, on) => onChange(toggled(draft, map, name, on))}
        arriving={others.isOpen ? listed.find((name, place) => !inSight(name, place)) : undefined}
        after={
          shown.length < listed.length && (
            <button type="button" class="button quiet" onClick={others.open}>
              {log.moreParts(listed.length - shown.length)}
            </button>
          )
        }
      />
      {draft.findings.map(({ component, condition }) => (
        <OneOf<Condition>
          key={component}
          legend={log.howBad(componentLabel(map, component))}
          value={condition}
          options={withChosen(conditionChips(map, component), condition).map((value) => ({
            value,
            label: conditionLabel(value),
          }))}
          onPick={(value) => onChange(withCondition(draft, component, value))}
        />
      ))}
    </div>
  );
}

/** A report made elsewhere may say a condition that the map does not list: it stays in sight. */
const withChosen = (chips: Condition[], chosen: Condition) => (chips.includes(chosen) ? chips : [...chips, chosen]);
