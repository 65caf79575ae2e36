/** A new PIN, typed twice: what it says is right only where both are the same. */

import { isPin } from "../../kit/pin_shape";
import { people as words } from "../words/people";
import { PinField } from "./PinField";

export interface TwicePin {
  pin: string;
  again: string;
}

/** The sentence that says what is wrong with a new PIN, or null. */
export function wrongWith({ pin, again }: TwicePin): string | null {
  if (!isPin(pin)) return words.pinShape;
  return pin === again ? null : words.pinDiffers;
}

export function NewPin({ value, onChange }: { value: TwicePin; onChange: (value: TwicePin) => void }) {
  return (
    <>
      <PinField label={words.pinNew} value={value.pin} onChange={(pin) => onChange({ ...value, pin })} />
      <PinField label={words.pinAgain} value={value.again} onChange={(again) => onChange({ ...value, again })} />
    </>
  );
}
