/** What is said of a hit: its reports, its name, property, others, who was hurt, who was told. */

import { useState } from "preact/hooks";
import type { HitSaid } from "../../report/grouping";
import type { Hit } from "../../report/incidents";
import { type Others, othersOf, othersText } from "../../report/others";
import { AnyOf } from "../bits/Chips";
import { FormTitle } from "../bits/FormTitle";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import type { CarScreen } from "../screen";
import { Line } from "./Line";
import { usePending } from "../bits/usePending";
import { incidents as words } from "../words/incidents";
import { PickReports } from "./PickReports";
import { RoadCard } from "./RoadCard";
import { toggled, wordsIn } from "./shown";

interface HitFormProps extends CarScreen {
  hits: Hit[];
  /** What the form starts with. */
  said: HitSaid;
  edited: string | null;
  onDone: () => void;
}

export function HitForm({ setup, actions, hits, said: start, edited, onDone }: HitFormProps) {
  const { draft: said, change } = useDraft<HitSaid>({
    ...start,
    others_involved: start.others_involved || start.others !== "",
  });
  const [others, setOthers] = useState<Others>(() => othersOf(start.others));
  const { busy, problem, run } = usePending(said.reports.length === 0 ? words.needReport : null);
  const save = async () => {
    await actions.groupReports({ ...said, others: said.others_involved ? othersText(others) : "" }, edited);
    onDone();
  };
  return (
    <section class="sheet" aria-labelledby="hit-title">
      <FormTitle level={2} id="hit-title" text={edited ? words.formChange : words.formNew} />
      <PickReports
        setup={setup}
        hits={hits}
        edited={edited}
        chosen={said.reports}
        onChange={(reports) => change({ reports })}
      />
      <Line label={words.name} hint={words.nameHint} value={said.title} onInput={(title) => change({ title })} />
      <Property said={said} onChange={change} />
      <AnyOf
        legend={words.others}
        options={[{ value: "yes", label: words.othersInvolved }]}
        chosen={said.others_involved ? ["yes"] : []}
        onToggle={(_, on) => change({ others_involved: on })}
      />
      {said.others_involved && <RoadCard others={others} onChange={setOthers} />}
      <Line
        label={words.injured}
        hint={words.injuredNote}
        value={said.injured}
        onInput={(injured) => change({ injured })}
      />
      <Line label={words.reportedTo} value={said.reported_to} onInput={(reported_to) => change({ reported_to })} />
      <ProblemLine text={problem} />
      <div class="row even">
        <button type="button" class="button main" disabled={busy} onClick={() => run(save)}>
          {words.save}
        </button>
        <button type="button" class="button" onClick={onDone}>
          {words.cancel}
        </button>
      </div>
    </section>
  );
}

function Property({ said, onChange }: { said: HitSaid; onChange: (more: Partial<HitSaid>) => void }) {
  const { property_hit } = said;
  return (
    <div class="stack">
      <AnyOf
        legend={words.property}
        options={words.propertyUsual.map((value) => ({ value, label: value }))}
        chosen={wordsIn(property_hit, words.propertyUsual)}
        onToggle={(word, on) => onChange({ property_hit: toggled(property_hit, word, on) })}
      />
      <Line
        label={words.propertyWhat}
        hint={words.propertyNote}
        value={property_hit}
        onInput={(text) => onChange({ property_hit: text })}
      />
    </div>
  );
}
