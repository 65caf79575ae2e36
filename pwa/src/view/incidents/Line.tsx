/** A line of text with what to write in it. */

interface LineProps {
  label: string;
  hint?: string;
  value: string;
  onInput: (text: string) => void;
}

/** A line of text with what to write in it; at most what the form on paper has room for. */
export function Line({ label, hint, value, onInput }: LineProps) {
  return (
    <label>
      <span class="label">{label}</span>
      {hint && <span class="soft hint">{hint}</span>}
      <input type="text" value={value} maxLength={500} onInput={(event) => onInput(event.currentTarget.value)} />
    </label>
  );
}
