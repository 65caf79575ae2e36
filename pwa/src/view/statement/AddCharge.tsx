/** The manager charges something besides damage, or corrects such a line; 0 of it takes it off the sum. */

import type { Statement } from "../../kit/api";
import { amountOf } from "../../kit/money";
import { type AddedCharge, OTHER_KINDS } from "../../report/statement";
import { useDraft } from "../bits/useDraft";
import { useOpen } from "../bits/useOpen";
import { usePending } from "../bits/usePending";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";
import { LineForm } from "./LineForm";

interface AddChargeProps extends BillProps {
  currency: string;
  /** The line that is corrected. */
  of: NonNullable<Statement["other"]>[number] | null;
}

export function AddCharge({ currency, of, actions }: AddChargeProps) {
  const form = useOpen();
  const { draft, change, reset } = useDraft<AddedCharge>({
    charge: of?.kind ?? "recovery",
    says: of?.says ?? "",
    qty: String(of?.qty ?? 1),
    price: of?.price ?? "",
    reason: "",
  });
  const { busy, problem, run } = usePending();
  const save = () => {
    const [qty, price] = [amountOf(draft.qty), amountOf(draft.price)];
    const says = draft.says.trim();
    const missing = says && qty && price && !qty.startsWith("-") ? null : words.chargeWrong;
    run(async () => {
      const added = { ...draft, says, qty: qty ?? "", price: price ?? "", reason: draft.reason.trim() };
      await actions.addCharge(of?.line ?? null, added);
      reset();
      form.close();
    }, missing);
  };
  const typed = (label: string, name: "says" | "qty" | "price", decimal: boolean) => (
    <label>
      <span class="label">{label}</span>
      <input
        type="text"
        inputMode={decimal ? "decimal" : "text"}
        value={draft[name]}
        maxLength={200}
        onInput={(event) => change({ [name]: event.currentTarget.value })}
      />
    </label>
  );
  return (
    <LineForm
      form={form}
      begin={of ? words.correctCharge : words.addCharge}
      legend={words.chargeKind}
      options={OTHER_KINDS}
      named={(kind) => words.other[kind] ?? kind}
      value={draft.charge}
      onPick={(charge) => change({ charge })}
      reason={draft.reason}
      onReason={(reason) => change({ reason })}
      problem={problem}
      busy={busy}
      save={words.settleSave}
      onSave={save}
    >
      {typed(words.chargeSays, "says", false)}
      {typed(words.chargeQty, "qty", true)}
      {typed(words.chargePrice(currency), "price", true)}
    </LineForm>
  );
}
