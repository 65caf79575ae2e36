/** Amounts of money: typed into a field, and shown in one column. */

import "./field.css";
import { type FieldProps, TextField } from "./Field";
import { writtenAmount } from "./amounts";

interface MoneyFieldProps extends Omit<FieldProps, "unit"> {
  /** As it was typed; the caller says by `problem` what is wrong with it. */
  value: string;
  /** The currency's code, as *EUR*. */
  currency: string;
  /** Digits after the point. */
  digits?: number;
  onInput: (text: string) => void;
}

/** When it is left, an amount is written in full (*1200* as *1200.00*); what is no amount stays as it was typed. */
export function MoneyField({ value, currency, digits = 2, onInput, ...field }: MoneyFieldProps) {
  const leave = () => {
    const written = writtenAmount(value, digits);
    if (written !== null && written !== value) onInput(written);
  };
  return (
    <div class="ui-money-field">
      <TextField {...field} unit={currency} value={value} inputMode="decimal" onInput={onInput} onLeave={leave} />
    </div>
  );
}

/** An amount as it was formatted for its language; the currency only where no heading names it. */
export function Money({ amount, currency, strong }: { amount: string; currency?: string; strong?: boolean }) {
  return (
    <span class={strong ? "ui-money is-strong" : "ui-money"}>
      {amount}
      {currency && <span class="ui-money-currency"> {currency}</span>}
    </span>
  );
}
