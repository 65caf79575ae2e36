/** The manager says what a line is to the agreement, and how much of a part was used before the hit. */

import { CHARGES, type Charge } from "../../report/statement";
import { OneOf } from "../bits/Chips";
import { Stepper } from "../bits/Stepper";
import { useDraft } from "../bits/useDraft";
import { useOpen } from "../bits/useOpen";
import { usePending } from "../bits/usePending";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";
import { SaveOrLeave } from "./SaveOrLeave";

interface DecideProps extends BillProps {
  line: string;
  parts: { part: string; description: string; used_percent: number }[];
}

const percent = (typed: number) => Math.min(100, Math.max(0, typed));

const STEPS = [
  { by: -10, label: "−10" },
  { by: 10, label: "+10" },
];

/** Nothing is decided but how far parts were used. */
const BY_TERMS = "by-terms";
type Pick = Charge | typeof BY_TERMS;

interface Draft {
  charge: Pick;
  used: Record<string, number>;
  reason: string;
}

export function Decide({ line, parts, actions }: DecideProps) {
  const form = useOpen();
  const { draft, change } = useDraft<Draft>({ charge: parts.length ? BY_TERMS : "damage", used: {}, reason: "" });
  const { busy, problem, run } = usePending();
  if (!form.isOpen) {
    return (
      <button type="button" class="button" onClick={form.open}>
        {words.decide}
      </button>
    );
  }
  const picks: readonly Pick[] = parts.length ? [BY_TERMS, ...CHARGES] : CHARGES;
  const usedOf = (part: string, now: number) => draft.used[part] ?? now;
  const save = () => {
    const reason = draft.reason.trim();
    const charge = draft.charge === BY_TERMS ? null : draft.charge;
    const missing = charge && charge !== "damage" && !reason ? words.needReason : null;
    const worn = parts
      .map((one) => ({ part: one.part, used_percent: usedOf(one.part, one.used_percent) }))
      .filter((one) => one.used_percent > 0);
    run(async () => {
      await actions.decideCharge(line, { charge, worn, reason });
      form.close();
    }, missing);
  };
  return (
    <div class="stack decide">
      <OneOf
        legend={words.decideTitle}
        value={draft.charge}
        options={picks.map((value) => ({ value, label: words.charge[value] ?? value }))}
        onPick={(charge) => change({ charge })}
      />
      {parts.map(({ part, description, used_percent }) => (
        <div key={part} class="stack">
          <span class="label">{words.usedOf(description || part)}</span>
          <Stepper
            label={words.usedOf(description || part)}
            shown={words.percent(usedOf(part, used_percent))}
            steps={STEPS}
            onStep={(by) => change({ used: { ...draft.used, [part]: percent(usedOf(part, used_percent) + by) } })}
          />
        </div>
      ))}
      <SaveOrLeave
        reason={draft.reason}
        onReason={(reason) => change({ reason })}
        problem={problem}
        busy={busy}
        save={words.save}
        onSave={save}
        onLeave={form.close}
      />
    </div>
  );
}
