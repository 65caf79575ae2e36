/** The steps of a walk: where one is, what is done, the step itself, undo and next in reach of the thumb. */

import { useEffect, useRef } from "preact/hooks";
import type { WalkDraft } from "../../report/walk_draft";
import { progressOf, STEPS, type Step } from "../../report/walk_draft";
import { walkOut, walksOf } from "../../report/walks";
import type { CarScreen } from "../screen";
import { walk as words } from "../words/walk";
import { FiguresStep } from "./FiguresStep";
import { KitStep } from "./KitStep";
import { MarksStep } from "./MarksStep";
import { PhotosStep } from "./PhotosStep";
import { SignStep } from "./SignStep";
import type { Walk } from "./useWalk";
import { entriesOf } from "../../report/lists";

interface StepsProps extends CarScreen {
  walk: Walk;
  draft: WalkDraft;
  onSigned: (id: string) => void;
}

export function Steps({ walk, draft, onSigned, ...props }: StepsProps) {
  const { state, car, actions } = props;
  const walks = walksOf(entriesOf(state.entries), car);
  const out = draft.walk === "return" ? walkOut(walks) : null;
  const top = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    // Whoever begins a walk loses the button that they pressed; whoever comes to one under way has the screen's name.
    if (document.activeElement === document.body) top.current?.focus({ preventScroll: true });
  }, []);
  useEffect(() => {
    const photos = (out?.data.photos ?? []).flatMap((one) => (one.photo ? [one.photo] : []));
    void actions.holdPhotos(photos);
  }, [out?.id]);
  const go = (step: Step) => {
    walk.change({ ...draft, step });
    top.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  };
  const next = STEPS[STEPS.indexOf(draft.step) + 1] ?? null;
  const at = { ...props, draft, out, change: walk.change };
  return (
    <>
      <StepNav draft={draft} onGo={go} />
      <h2 ref={top} tabIndex={-1}>
        {titleOf(draft)}
      </h2>
      {draft.step === "photos" && <PhotosStep {...at} />}
      {draft.step === "marks" && <MarksStep {...at} />}
      {draft.step === "figures" && <FiguresStep {...at} />}
      {draft.step === "kit" && <KitStep {...at} />}
      {draft.step === "sign" && <SignStep {...at} onSigned={onSigned} />}
      {draft.step === "sign" && (
        <button type="button" class="button quiet" onClick={walk.giveUp}>
          {words.giveUp}
        </button>
      )}
      <div class="walk-bar">
        <button type="button" class="button" aria-disabled={walk.undoes === null} onClick={walk.undo}>
          {walk.undoes === null ? words.undoNothing : words.undo(walk.undoes)}
        </button>
        {next && (
          <button type="button" class="button main" onClick={() => go(next)}>
            {words.next(next)}
          </button>
        )}
      </div>
    </>
  );
}

function titleOf(draft: WalkDraft): string {
  if (draft.step === "marks") return draft.walk === "out" ? words.marksOut : words.marksReturn;
  return draft.step === "kit" ? words.kit : draft.step === "sign" ? words.signTitle : words.step[draft.step];
}

function StepNav({ draft, onGo }: { draft: WalkDraft; onGo: (step: Step) => void }) {
  const progress = progressOf(draft);
  const done = (step: Step) => (step === "sign" ? "" : words.done(...progress[step]));
  return (
    <nav aria-label={words.steps}>
      <ol class="walk-steps">
        {STEPS.map((step) => (
          <li key={step}>
            <button
              type="button"
              class="button"
              aria-current={step === draft.step ? "step" : undefined}
              aria-label={words.stepName(step, done(step))}
              onClick={() => onGo(step)}
            >
              <span>{words.step[step]}</span>
              <span class="walk-count">{done(step)}</span>
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}
