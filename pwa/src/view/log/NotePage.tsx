/** The page of the crew's notes: what they know where they do not know the km. */

import type { ReportBody } from "../../kit/api";
import { Stepper } from "../bits/Stepper";
import { place as words } from "../words/place";

const STEPS = [-10, -1, 1, 10].map((by) => ({ by, label: by > 0 ? `+${by}` : `−${-by}` }));

/** Pages count from 1; below that the page is not known. */
export function NotePage({ draft, onChange }: { draft: ReportBody; onChange: (draft: ReportBody) => void }) {
  const step = (by: number) => {
    const page = Math.min(999, (draft.note_page ?? 0) + by);
    onChange({ ...draft, note_page: page < 1 ? null : page });
  };
  return (
    <div>
      <span class="label">{words.notePage}</span>
      <Stepper
        label={words.notePage}
        shown={draft.note_page === null ? "–" : `${draft.note_page}`}
        steps={STEPS}
        onStep={step}
      />
    </div>
  );
}
