/** Which official saw the cage and what he said, in his words. */

import { job as words } from "../words/job";

interface Official {
  said: { shown_to: string; said: string };
  onChange: (said: { shown_to: string; said: string }) => void;
}

export function Official({ said, onChange }: Official) {
  return (
    <div class="stack">
      <label>
        <span class="label">{words.cage.shownTo}</span>
        <input
          type="text"
          value={said.shown_to}
          maxLength={200}
          onInput={(event) => onChange({ ...said, shown_to: event.currentTarget.value })}
        />
      </label>
      <label>
        <span class="label">{words.cage.said}</span>
        <textarea
          value={said.said}
          maxLength={1000}
          onInput={(event) => onChange({ ...said, said: event.currentTarget.value })}
        />
      </label>
    </div>
  );
}
