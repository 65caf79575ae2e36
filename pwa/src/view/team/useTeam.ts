/** What every part of the team plan's screen needs: the plan held, how its tasks stand, what is due, and asking again. */

import { useEffect, useRef } from "preact/hooks";
import type { HeldPlan, HeldTeam, TeamWish } from "../../flow/model";
import { entriesOf } from "../../report/lists";
import { type Change, changeSince, restFrom, type Standing, standings } from "../../report/plan";
import { type CarPart, type Due, dueOf, leads, partHeld, teamShown } from "../../report/team_plan";
import { currentService } from "../../report/service";
import { usePending } from "../bits/usePending";
import type { CarScreen } from "../screen";

/** How long to wait before the better plan is asked for, and how often: it takes half a minute, and longer where others wait. */
const POLL_MS = 1_500;
const MOST_POLLS = 160;

/** One car's part of the plan that is held, with how its tasks stand. */
export interface Part {
  plan: CarPart;
  /** The same as a plan of one car is held. */
  held: HeldPlan;
  offset_s: number;
  standing: Map<string, Standing>;
}

export interface Teaming extends CarScreen {
  held: HeldTeam | null;
  parts: Part[];
  due: Due | null;
  /** What has happened since, to any of the cars. */
  change: Change;
  /** Whether a better plan is still being made. */
  improving: boolean;
  /** A plan asked for now is one of the rest: from when. */
  at: string | null;
  /** Whether this person leads: who does is told how likely the plan is kept. */
  leads: boolean;
  /** Ask for a plan of these cars and people, from now on where one of them is in. Errors: UserError. */
  ask: (wish: TeamWish) => Promise<void>;
}

export function useTeam(props: CarScreen): Teaming {
  const { state, setup, actions } = props;
  const held = state.team_plan;
  const entries = entriesOf(state.entries);
  const due = dueOf(entries, setup);
  const parts = held ? partsOf(held, props) : [];
  const changes = parts.map((one) => changeSince(one.held, state.entries, state.queue));
  const change = changes.find((one) => one === "news") ?? changes.find((one) => one === "work") ?? "none";
  const ask = (wish: TeamWish) => {
    const inside = wish.cars.some((car) => isIn(car, wish.service, props));
    const at = inside ? restFrom(state.now) : null;
    return actions.askTeamPlan({ ...wish, at, previous: previousFor(held, wish) });
  };
  const at = held?.wish.cars.some((car) => isIn(car, held.wish.service, props)) ? restFrom(state.now) : null;
  const improving = useBetter(props, held);
  return {
    ...props,
    held,
    parts,
    due,
    change,
    improving,
    at,
    leads: leads(state.identity?.roles ?? []),
    ask,
  };
}

function partsOf(held: HeldTeam, { state, setup }: CarScreen): Part[] {
  return held.plan.cars.flatMap((plan) => {
    const part = partHeld(held, plan.car);
    return part ? [{ plan, held: part, offset_s: plan.offset_s, standing: standings(part, state.entries, setup) }] : [];
  });
}

// The plan of another service says nothing for this one.
const previousFor = (held: HeldTeam | null, wish: TeamWish) =>
  held?.wish.service === wish.service ? teamShown(held) : undefined;

/** Whether a car is in a service, and no longer than the event lets it be late. */
function isIn(car: string, service: string, { state, setup }: CarScreen): boolean {
  const inside = currentService(entriesOf(state.entries), car, setup);
  if (inside?.service !== service || inside.due_out_ms === null || state.now < inside.in_ms) return false;
  return state.now <= inside.due_out_ms + setup.regulations.late_limit_minutes * 60_000;
}

// The plan made at once is there first: while anybody sees it, the better one is asked for.
function useBetter({ state, actions }: CarScreen, held: HeldTeam | null): boolean {
  const quiet = usePending();
  const polls = useRef({ of: "", count: 0 });
  const wanted =
    held !== null && held.plan.by === "greedy" && !state.unreachable && quiet.problem === null && !isOver(held);
  function isOver({ heard_at }: HeldTeam) {
    return polls.current.of === heard_at && polls.current.count >= MOST_POLLS;
  }
  useEffect(() => {
    if (!wanted || !held) return;
    if (polls.current.of !== held.heard_at) polls.current = { of: held.heard_at, count: 0 };
    let timer = 0;
    const again = () => {
      timer = window.setTimeout(() => {
        if (document.hidden) return again();
        polls.current.count += 1;
        void quiet.run(async () => {
          const more = await actions.improveTeamPlan();
          if (more && polls.current.count < MOST_POLLS) again();
        });
      }, POLL_MS);
    };
    again();
    return () => clearTimeout(timer);
  }, [wanted, held?.heard_at]);
  return wanted;
}
