/** Which of the parts shown the person looked at: each its own tick, or one tap for all of them. */

import type { CarMap, Job } from "../../kit/api";
import { AnyOf } from "../bits/Chips";
import { componentLabel } from "../labels";
import { job as words } from "../words/job";
import { common } from "../words/common";

interface PickLooks {
  map: CarMap;
  looks: Job[];
  ticked: string[];
  /** Jobs that this person repaired: his pass will not count there. */
  repaired: string[];
  onChange: (ticked: string[]) => void;
}

export function PickLooks({ map, looks, ticked, repaired, onChange }: PickLooks) {
  const own = repaired.filter((key) => ticked.includes(key));
  return (
    <div class="stack">
      {looks.length > 1 && (
        <>
          <AnyOf
            legend={words.lookWhich}
            options={looks.map((one) => ({ value: one.job, label: componentLabel(map, one.component) }))}
            chosen={ticked}
            onToggle={(key, on) => onChange(on ? [...ticked, key] : ticked.filter((one) => one !== key))}
          />
          <button type="button" class="button" onClick={() => onChange(looks.map((one) => one.job))}>
            {words.lookAll(looks.length)}
          </button>
        </>
      )}
      <div aria-live="polite">
        {own.map((key) => (
          <p key={key} class="warn">
            {common.and(componentLabel(map, key.split("/")[1] ?? key), words.repaired)}
          </p>
        ))}
      </div>
    </div>
  );
}
