/** One view after the other: take it, or leave it out with a reason; at the return beside the photo of the walk out. */

import { useState } from "preact/hooks";
import { isDone, leaveOut, type WalkDraft } from "../../report/walk_draft";
import { LONGEST_REASON, type View, VIEWS } from "../../report/walk_list";
import { photoAt } from "../../report/walks";
import { Icon } from "../bits/Icon";
import { Picture } from "../bits/Picture";
import { ProblemLine } from "../bits/Problem";
import { useOpen } from "../bits/useOpen";
import { usePending } from "../bits/usePending";
import { walk as words } from "../words/walk";
import type { AtStep } from "./atStep";
import { common } from "../words/common";

/** The first view that is open after `view`, round the car; null where none is. */
function openAfter(draft: WalkDraft, view: View): View | null {
  const from = VIEWS.indexOf(view) + 1;
  return [...VIEWS.slice(from), ...VIEWS.slice(0, from)].find((one) => one !== view && !isDone(draft, one)) ?? null;
}

export function PhotosStep(props: AtStep) {
  const { draft, change } = props;
  const [view, setView] = useState<View>(() => VIEWS.find((one) => !isDone(draft, one)) ?? VIEWS[0]);
  const said = (next: WalkDraft, what: string) => {
    change(next, what);
    setView(openAfter(next, view) ?? view);
  };
  const isAll = VIEWS.every((one) => isDone(draft, one));
  return (
    <>
      {isAll && <p role="status">{words.allTaken}</p>}
      <OneView key={view} {...props} view={view} said={said} />
      <Overview draft={draft} view={view} onPick={setView} />
    </>
  );
}

interface OneViewProps extends AtStep {
  view: View;
  said: (next: WalkDraft, what: string) => void;
}

function OneView({ draft, out, actions, view, said }: OneViewProps) {
  const { busy, problem, run } = usePending();
  const reasons = useOpen();
  const taken = draft.photos[view] ?? null;
  const take = (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (file) {
      run(async () => {
        const photo = await actions.keepPhoto(file);
        said({ ...draft, photos: { ...draft.photos, [view]: { photo, why_none: "" } } }, words.view[view]);
      });
    }
    input.value = "";
  };
  return (
    <section class="sheet" aria-labelledby="view-title">
      <div>
        <p class="soft">{words.viewOf(VIEWS.indexOf(view) + 1, VIEWS.length)}</p>
        <h3 id="view-title" class="walk-view">
          {words.view[view]}
        </h3>
      </div>
      <div class={out ? "walk-pair" : "walk-one"}>
        {out && (
          <Picture
            photo={photoAt(out, view)}
            label={words.before}
            alt={common.and(words.view[view], words.before)}
            none={words.noBefore}
            photoUrl={actions.photoUrl}
          />
        )}
        <Picture
          photo={taken?.photo ?? null}
          label={out ? words.now : null}
          alt={out ? common.and(words.view[view], words.now) : words.view[view]}
          none={taken?.why_none ? words.leftOut(taken.why_none) : words.notYet}
          photoUrl={actions.photoUrl}
        />
      </div>
      <label class="button main file wide walk-take">
        <Icon name="camera" />
        <span>{busy ? words.taking : taken?.photo ? words.again : words.take}</span>
        <input
          type="file"
          accept="image/*"
          capture="environment"
          disabled={busy}
          onChange={(event) => take(event.currentTarget)}
        />
      </label>
      <ProblemLine text={problem} />
      <button type="button" class="button" aria-expanded={reasons.isOpen} onClick={reasons.toggle}>
        {words.leaveOut}
      </button>
      {reasons.isOpen && <WhyNone onSay={(why) => said(leaveOut(draft, [view], why), words.view[view])} />}
    </section>
  );
}

/** A reason is one tap, and a button each: with radio buttons, arrow keys would say one on the way to the next. */
export function WhyNone({ onSay }: { onSay: (why: string) => void }) {
  const [own, setOwn] = useState("");
  const said = own.trim();
  return (
    <fieldset>
      <legend>{words.whyNone}</legend>
      <div class="stack">
        <div class="row">
          {words.reasons.map((why) => (
            <button key={why} type="button" class="button" onClick={() => onSay(why)}>
              {why}
            </button>
          ))}
        </div>
        <label>
          <span class="label">{words.reasonOther}</span>
          <input
            type="text"
            value={own}
            maxLength={LONGEST_REASON}
            onInput={(event) => setOwn(event.currentTarget.value)}
          />
        </label>
        {said !== "" && (
          <button type="button" class="button" onClick={() => onSay(said)}>
            {words.leaveOutWhy(said)}
          </button>
        )}
      </div>
    </fieldset>
  );
}

function Overview({ draft, view, onPick }: { draft: WalkDraft; view: View; onPick: (view: View) => void }) {
  const stateOf = (one: View) => {
    if (!isDone(draft, one)) return words.viewDone.open;
    return draft.photos[one]?.photo ? words.viewDone.taken : words.viewDone.out;
  };
  const pick = (one: View) => {
    onPick(one);
    window.scrollTo(0, 0);
  };
  return (
    <details class="sheet">
      <summary>{words.allViews}</summary>
      <ol class="walk-views">
        {VIEWS.map((one, at) => (
          <li key={one}>
            <button type="button" class="button" aria-pressed={one === view} onClick={() => pick(one)}>
              <span>
                {at + 1}. {words.view[one]}
              </span>
              <span class="soft">{stateOf(one)}</span>
            </button>
          </li>
        ))}
      </ol>
    </details>
  );
}
