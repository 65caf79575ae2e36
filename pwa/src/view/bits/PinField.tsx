/** A field for a PIN: digits on the phone's number pad, never shown, never filled in by the browser. */

interface PinField {
  label: string;
  value: string;
  onChange: (pin: string) => void;
}

export function PinField({ label, value, onChange }: PinField) {
  return (
    <label>
      <span class="label">{label}</span>
      <input
        type="password"
        inputMode="numeric"
        autocomplete="off"
        maxLength={6}
        value={value}
        onInput={(event) => onChange(event.currentTarget.value)}
      />
    </label>
  );
}
