/** A report that is being written: its draft, kept on the phone with each change, and the step that it is at. */

import type { RefObject } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { ReportBody } from "../../kit/api";
import { EMPTY_BODY } from "../../report/body";
import { entriesOf } from "../../report/lists";
import { prefill } from "../../report/prefill";
import { markSaid } from "../bits/saidOnce";
import type { CarScreen } from "../screen";
import { isFirstDay } from "./FirstDay";
import { forgetDraft, keepDraft, keptDraft } from "./keptDraft";

export type Step =
  | { at: "zone" }
  | { at: "stopped" }
  | { at: "form" }
  | { at: "saved"; report: string; said: ReportBody };

export interface NewReport {
  draft: ReportBody;
  step: Step;
  isFirstDay: boolean;
  /** The page's title, which has the focus where a step has no title of its own. */
  top: RefObject<HTMLHeadingElement | null>;
  change(draft: ReportBody): void;
  go(step: Step): void;
  /** Change the draft and go on. */
  begin(draft: ReportBody, step: Step): void;
  endFirstDay(): void;
  save(said: ReportBody): Promise<void>;
  again(): void;
}

export function useNewReport({ state, setup, car, actions }: CarScreen): NewReport {
  const { reading } = state;
  const start = () => (reading ? EMPTY_BODY : prefill(entriesOf(state.entries), car, setup, state.now));
  const [draft, setDraft] = useState<ReportBody>(() => keptDraft(car) ?? start());
  const [step, setStep] = useState<Step>(() => firstStep(draft, car));
  const [firstDay, setFirstDay] = useState(() => !reading && isFirstDay(state));
  const top = useRef<HTMLHeadingElement>(null);
  const endFirstDay = () => {
    if (firstDay) markSaid("tour");
    setFirstDay(false);
  };
  const change = (next: ReportBody) => {
    keepDraft(car, next);
    setDraft(next);
  };
  const go = (next: Step) => {
    setStep(next);
    endFirstDay();
    // The other steps have a title of their own that takes it.
    if (next.at === "zone") top.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  };
  const began_reading = useRef(reading);
  // Where it was follows from what is read now; who has said it meanwhile knows better.
  useEffect(() => {
    if (reading || !began_reading.current) return;
    began_reading.current = false;
    const { where, stage } = start();
    const said = draft.where !== "unknown" || draft.stage !== null;
    const next = said ? draft : { ...draft, where, stage };
    if (step.at === "zone") setFirstDay(isFirstDay(state));
    (keptDraft(car) ? change : setDraft)(next);
  }, [reading]);
  const begin = (next: ReportBody, to: Step) => {
    change(next);
    go(to);
  };
  const save = async (said: ReportBody) => {
    const report = await actions.fileReport(said);
    forgetDraft(car);
    go({ at: "saved", report, said });
  };
  const again = () => {
    forgetDraft(car);
    setDraft(start());
    go({ at: "zone" });
  };
  return { draft, step, isFirstDay: firstDay, top, change, go, begin, endFirstDay, save, again };
}

// Photos wait for their place.
function firstStep(draft: ReportBody, car: string): Step {
  return { at: draft.zone || (keptDraft(car) && !draft.photos.length) ? "form" : "zone" };
}
