/** What is done about a job: the next thing in the dock, the rest as buttons, the forms that they open. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { Entry, Job } from "../../kit/api";
import { atPlace } from "../../report/at_place";
import { entriesOf } from "../../report/lists";
import { prefill } from "../../report/prefill";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { timeOf } from "../labels";
import { keepDraft } from "../log/keptDraft";
import { inspectHref, inspectorsOf, namesText } from "../place/shown";
import type { CarScreen } from "../screen";
import { NoWork, shutOf } from "../service/NoWork";
import { Button } from "../ui/Button";
import { Dock } from "../ui/Dock";
import { job as words } from "../words/job";
import { places } from "../words/places";
import { reports as reportWords } from "../words/reports";
import { Defer } from "./Defer";
import { type Deed, deedsOf, primaryOf } from "./deeds";
import { Finish } from "./Finish";
import { lastOwn, startsOn } from "./history";
import { Kept } from "./Kept";

export interface WorkProps extends CarScreen {
  job: Job;
  valid: Entry[];
}

type Open = "none" | "finish" | "defer";

export function Work(props: WorkProps) {
  const { state, job, valid } = props;
  const { open, setOpen, place } = useForms();
  const pending = usePending();
  const starts = startsOn(valid, job.job);
  const { inspect } = atPlace(job.zone, state.queue?.answer.jobs ?? [], valid);
  const standing = {
    job,
    is_started: starts.length > 0,
    is_shut: shutOf(props).shut,
    is_inspector: state.identity?.roles.includes("inspector") ?? false,
    waits: inspect.some((one) => one.job === job.job),
  };
  const primary = primaryOf(standing);
  const shown = (deed: Deed) => buttonOf(deed, props, { ...standing, open, setOpen, run: pending.run });
  const part = { ...props, onDone: () => setOpen("none") };
  return (
    <>
      <section class="job-work" aria-labelledby="work-title" ref={place}>
        <h2 id="work-title">{words.work}</h2>
        <div id="no-work">
          <NoWork {...props} />
        </div>
        {open === "finish" && <Finish {...part} starts={starts} />}
        {open === "defer" && <Defer {...part} />}
        <div class="job-deeds">
          {deedsOf(standing)
            .filter((deed) => deed !== primary)
            .map((deed) => (
              <span key={deed} data-deed={deed}>
                <Button {...shown(deed)} busy={pending.busy} />
              </span>
            ))}
          <Kept {...props} valid={valid} />
          <Undo {...props} />
        </div>
      </section>
      {/* Beside the section, not in it: it sticks to the thumb from the top of the page on. */}
      <fieldset class="job-dock" aria-labelledby="work-title" data-deed={primary} hidden={open !== "none"}>
        <ProblemLine text={pending.problem} />
        <Dock primary={{ ...shown(primary), busy: pending.busy }} note={waiting(props, standing.waits)} />
      </fieldset>
    </>
  );
}

/** Which form is open; closing it gives the focus back to what opened it. */
function useForms() {
  const [open, setOpen] = useState<Open>("none");
  const place = useRef<HTMLElement>(null);
  const before = useRef<Open>("none");
  useEffect(() => {
    const closed = before.current;
    before.current = open;
    if (open !== "none" || closed === "none") return;
    const opener = place.current?.parentElement?.querySelector<HTMLElement>(`[data-deed="${closed}"] button`);
    opener?.focus({ preventScroll: true });
  }, [open]);
  return { open, setOpen, place };
}

interface Buttons {
  open: Open;
  setOpen: (open: Open) => void;
  run: (work: () => Promise<unknown>) => void;
  waits: boolean;
  is_shut: boolean;
}

/** The button of a deed: its words, and what a tap does. */
function buttonOf(deed: Deed, props: WorkProps, { open, setOpen, run, waits, is_shut }: Buttons) {
  const { actions, job } = props;
  const form = (which: Open) => ({ expanded: open === which, onClick: () => setOpen(open === which ? "none" : which) });
  switch (deed) {
    case "start":
      return {
        children: words.start,
        onClick: () => run(() => actions.startJob(job.job)),
        ...(is_shut ? { unavailable: "no-work" } : {}),
      };
    case "stop":
      return { children: words.stop, onClick: () => run(() => actions.stopJob(job.job)) };
    case "finish":
      return { children: words.finish, ...form("finish") };
    case "defer":
      return { children: words.defer, ...form("defer") };
    case "inspect":
      return { children: words.inspect, href: inspectHref(job.zone, waits ? undefined : job.component) };
    case "add":
      return { children: words.add, onClick: () => addFound(props) };
  }
}

/** Who has to come, for somebody who can't sign what waits. */
function waiting({ state, setup }: WorkProps, waits: boolean): string | null {
  if (!waits || state.identity?.roles.includes("inspector")) return null;
  const names = namesText(inspectorsOf(setup), setup);
  return names ? places.waits(names) : places.waitsNobody;
}

function Undo({ state, setup, actions, job, valid }: WorkProps) {
  const { busy, problem, run } = usePending();
  const last = state.identity && lastOwn(valid, job.job, state.identity.person);
  if (!last) return null;
  const what = reportWords.kind[last.kind] ?? last.kind;
  return (
    <>
      <Button busy={busy} onClick={() => run(() => actions.voidEntry(last.id, words.undoReason))}>
        {words.undo(what.toLowerCase(), timeOf(setup, last.at))}
      </Button>
      <ProblemLine text={problem} />
    </>
  );
}

// What the crew itself finds is a report like any other: in service, in this place.
function addFound({ state, setup, car, actions, job }: WorkProps) {
  const entries = entriesOf(state.entries);
  keepDraft(car, { ...prefill(entries, car, setup, state.now), where: "service", zone: job.zone });
  actions.go("/log");
}
