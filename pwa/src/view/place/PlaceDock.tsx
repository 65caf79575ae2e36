/** The one thing to do next at a place: inspect what waits, begin or go on with the first repair, or add what is found. */

import { keepDraft } from "../log/keptDraft";
import { prefill } from "../../report/prefill";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { componentLabel } from "../labels";
import { startsOn } from "../job/history";
import { jobHref } from "../queue/links";
import { shutOf } from "../service/NoWork";
import { Dock } from "../ui/Dock";
import { places as words } from "../words/places";
import type { PlacePart } from "./PlacePage";
import { inspectHref, inspectorsOf, namesText } from "./shown";
import { entriesOf } from "../../report/lists";

export function PlaceDock(props: PlacePart) {
  const { busy, problem, run } = usePending();
  const add = { children: words.addFound, onClick: () => addFound(props) };
  const next = nextOf(props, (job) => run(() => props.actions.startJob(job)));
  return (
    <div class="place-dock">
      <ProblemLine text={problem} />
      {next ? (
        <Dock primary={{ ...next, busy }} secondary={add} note={waiting(props)} />
      ) : (
        <Dock primary={add} note={waiting(props)} />
      )}
    </div>
  );
}

/** What comes next for this person, as a button; null where nothing is theirs to do. */
function nextOf(props: PlacePart, start: (job: string) => void) {
  const { state, setup, valid, here, zone } = props;
  const works = state.identity?.roles.some((role) => role === "mechanic" || role === "inspector");
  if (here.inspect.length > 0 && state.identity?.roles.includes("inspector")) {
    return { children: words.inspectDo(here.inspect.length), href: inspectHref(zone) };
  }
  const [job] = here.repair;
  if (!job || !works) return null;
  const part = componentLabel(setup.car_map, job.component);
  const is_begun = startsOn(valid, job.job).length > 0;
  if (is_begun || shutOf(props).shut) return { children: words.open(part), href: jobHref(job.job) };
  return { children: words.start(part), onClick: () => start(job.job) };
}

/** Who has to come, for somebody who can't sign what waits here. */
function waiting({ state, setup, here }: PlacePart): string | null {
  if (here.inspect.length === 0 || state.identity?.roles.includes("inspector")) return null;
  const names = namesText(inspectorsOf(setup), setup);
  return names ? words.waits(names) : words.waitsNobody;
}

// What the crew itself finds is a report like any other: in service, in this place.
function addFound({ state, setup, car, actions, zone }: PlacePart) {
  const entries = entriesOf(state.entries);
  keepDraft(car, { ...prefill(entries, car, setup, state.now), where: "service", zone });
  actions.go("/log");
}
