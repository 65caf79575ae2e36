/** Marks by place on the drawing: what is marked, how, a photo; at the return what was there stands beside. */

import { useRef, useState } from "preact/hooks";
import { uuid7 } from "../../kit/uuid7";
import type { DraftMark } from "../../report/walk_draft";
import { MOST_MARKS } from "../../report/walk_list";
import { marksOf } from "../../report/walks";
import { Photos } from "../bits/Photo";
import { CarDrawing } from "../car/CarDrawing";
import { zoneLabel } from "../labels";
import { whatSaid } from "../log/said";
import { common } from "../words/common";
import { walk as words } from "../words/walk";
import { bodyOfMark } from "../../report/walk_draft";
import { MarkForm } from "./MarkForm";
import type { AtStep } from "./atStep";

export function MarksStep(props: AtStep) {
  const { draft, setup, change } = props;
  const [editing, setEditing] = useState<string | null>(null);
  const top = useRef<HTMLParagraphElement>(null);
  const mark = draft.marks.find((one) => one.key === editing) ?? null;
  const label = (zone: string) => zoneLabel(setup.car_map, zone);
  const go = (key: string | null) => {
    setEditing(key);
    // The form that ends takes the button with the focus along; one that opens has a title that takes it.
    if (key === null) top.current?.focus({ preventScroll: true });
    top.current?.scrollIntoView({ block: "start" });
  };
  const begin = (zone: string) => {
    if (draft.marks.length >= MOST_MARKS) return;
    const key = uuid7(Date.now());
    change({ ...draft, marks: [...draft.marks, { key, zone, findings: [], photos: [], note: "" }] }, label(zone));
    go(key);
  };
  const put = (next: DraftMark, what: string) =>
    change({ ...draft, marks: draft.marks.map((one) => (one.key === next.key ? next : one)) }, what);
  return (
    <>
      <p ref={top} tabIndex={-1} class="walk-top">
        {draft.walk === "out" ? words.marksOutHow : words.marksReturnHow}
      </p>
      {mark ? (
        <MarkForm {...props} mark={mark} onChange={put} onDone={() => go(null)} />
      ) : (
        <>
          <CarDrawing map={setup.car_map} chosen={null} counts={countsOf(draft.marks)} onPick={begin} />
          <MarkList {...props} onOpen={go} />
          {draft.walk === "return" && <WasThere {...props} />}
        </>
      )}
    </>
  );
}

function countsOf(marks: DraftMark[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (const { zone } of marks) counts[zone] = (counts[zone] ?? 0) + 1;
  return counts;
}

function MarkList({ draft, setup, actions, change, onOpen }: AtStep & { onOpen: (key: string) => void }) {
  if (draft.marks.length === 0) return <p class="soft">{words.noMarks}</p>;
  const remove = (mark: DraftMark) =>
    change(
      { ...draft, marks: draft.marks.filter((one) => one !== mark) },
      `${words.remove.toLowerCase()} ${zoneLabel(setup.car_map, mark.zone)}`,
    );
  return (
    <ul class="stack">
      {draft.marks.map((mark) => {
        const said = whatSaid(bodyOfMark(mark, draft.walk), setup.car_map);
        return (
          <li key={mark.key} class="sheet">
            <p class="strong">{said}</p>
            {mark.note !== "" && <p>{mark.note}</p>}
            <Photos photos={mark.photos} photoUrl={actions.photoUrl} />
            <div class="row even">
              <button
                type="button"
                class="button"
                aria-label={common.by(words.change, said)}
                onClick={() => onOpen(mark.key)}
              >
                {words.change}
              </button>
              <button
                type="button"
                class="button"
                aria-label={common.by(words.remove, said)}
                onClick={() => remove(mark)}
              >
                {words.remove}
              </button>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

function WasThere({ state, setup, actions, out }: AtStep) {
  const marks = out ? marksOf(state.entries, out) : [];
  return (
    <section class="stack" aria-labelledby="was-title">
      <h3 id="was-title">{words.wasThere}</h3>
      {marks.length === 0 && <p class="soft">{words.wasThereNone}</p>}
      <ul class="stack">
        {marks.map((one) => (
          <li key={one.report} class="sheet">
            <p>{whatSaid(one.body, setup.car_map)}</p>
            {one.body.note !== "" && <p class="soft">{one.body.note}</p>}
            <Photos photos={one.body.photos} photoUrl={actions.photoUrl} />
          </li>
        ))}
      </ul>
    </section>
  );
}
