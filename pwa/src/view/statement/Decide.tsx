/** The manager says what a line is to the agreement, and how much of a part was used before the hit. */

import { useState } from "preact/hooks";
import { CHARGES, type Charge } from "../../report/statement";
import { OneOf } from "../bits/Chips";
import { Stepper } from "../bits/Stepper";
import { usePending } from "../bits/usePending";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";
import { SaveOrLeave } from "./SaveOrLeave";

interface DecideProps extends BillProps {
  line: string;
  parts: { part: string; description: string; used_percent: number }[];
}

const STEPS = [
  { by: -10, label: "−10" },
  { by: 10, label: "+10" },
];

export function Decide({ line, parts, actions }: DecideProps) {
  const [open, setOpen] = useState(false);
  const [charge, setCharge] = useState<Charge | null>(null);
  const [used, setUsed] = useState<Record<string, number>>({});
  const [reason, setReason] = useState("");
  const [missing, setMissing] = useState<string | null>(null);
  const { busy, problem, run } = usePending();
  if (!open) {
    return (
      <button type="button" class="button" onClick={() => setOpen(true)}>
        {words.decide}
      </button>
    );
  }
  const usedOf = (part: string, now: number) => used[part] ?? now;
  const save = () => {
    const chosen = charge ?? "damage";
    const wantsReason = chosen !== "damage" && !reason.trim();
    setMissing(wantsReason ? words.needReason : null);
    if (wantsReason) return;
    const worn = parts
      .map((one) => ({ part: one.part, used_percent: usedOf(one.part, one.used_percent) }))
      .filter((one) => one.used_percent > 0);
    run(async () => {
      await actions.decideCharge(line, { charge: chosen, worn, reason: reason.trim() });
      setOpen(false);
    });
  };
  return (
    <div class="stack decide">
      <OneOf
        legend={words.decideTitle}
        value={charge ?? "damage"}
        options={CHARGES.map((value) => ({ value, label: words.charge[value] ?? value }))}
        onPick={setCharge}
      />
      {parts.map(({ part, description, used_percent }) => (
        <div key={part} class="stack">
          <span class="label">{words.usedOf(description || part)}</span>
          <Stepper
            label={words.usedOf(description || part)}
            shown={words.percent(usedOf(part, used_percent))}
            steps={STEPS}
            onStep={(by) => setUsed({ ...used, [part]: Math.min(100, Math.max(0, usedOf(part, used_percent) + by)) })}
          />
        </div>
      ))}
      <SaveOrLeave
        reason={reason}
        onReason={setReason}
        problem={missing ?? problem}
        busy={busy}
        save={words.save}
        onSave={save}
        onLeave={() => setOpen(false)}
      />
    </div>
  );
}
