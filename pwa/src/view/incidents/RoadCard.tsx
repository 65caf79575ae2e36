/** The short card for an accident with others: who they are, who saw it, what number the police gave it. */

import { OTHERS_FIELDS, type Others } from "../../report/others";
import { incidents as words } from "../words/incidents";
import { Line } from "./Line";

export function RoadCard({ others, onChange }: { others: Others; onChange: (others: Others) => void }) {
  return (
    <div class="stack road-card">
      <p class="soft">{words.othersNote}</p>
      {OTHERS_FIELDS.map((field) => (
        <Line
          key={field}
          label={words.field[field]}
          value={others[field]}
          onInput={(text) => onChange({ ...others, [field]: text })}
        />
      ))}
      <label>
        <span class="label">{words.more}</span>
        <textarea
          value={others.more}
          maxLength={1000}
          onInput={(event) => onChange({ ...others, more: event.currentTarget.value })}
        />
      </label>
    </div>
  );
}
