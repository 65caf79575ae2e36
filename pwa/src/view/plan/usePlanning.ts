/** What every part of the plan's screens needs: the service, the plan held of it, how its tasks stand, and asking again. */

import { useEffect, useRef } from "preact/hooks";
import type { HeldPlan, PlanWish } from "../../flow/model";
import type { Service } from "../../kit/api";
import { localIso } from "../../kit/time";
import { entriesOf } from "../../report/lists";
import { type Change, changeSince, PLAIN_WISH, restFrom, shownOf, type Standing, standings } from "../../report/plan";
import { completed, type SaidPlan } from "../../report/said_plan";
import { READY_BY, retirementOf } from "../../report/retirement";
import { type CurrentService, currentService } from "../../report/service";
import { type Pending, usePending } from "../bits/usePending";
import type { CarScreen } from "../screen";
import { nextService } from "../service/day";

/** How long to wait before the better plan is asked for, and how often. */
const POLL_MS = 1_500;
const MOST_POLLS = 200;
const TICK_MS = 15_000;

export interface Planning extends CarScreen, HeldOf {
  service: Service;
  /** It is no service but the time until a car that restarts has to be ready. */
  overnight: Overnight | null;
  /** The service that the car is in, if it is this one. */
  current: CurrentService | null;
  /** Another service that the car is in. */
  elsewhere: string | null;
  pending: Pending;
  /** Whether a plan asked for now is one of the rest. */
  rest: boolean;
  /** The plan moves on by itself now: nothing needs a tap. */
  follows: boolean;
  /** Ask for a plan with these people and minutes, from now on where the car is in. */
  ask: (wish: PlanWish) => void;
}

/** The time until a car that restarts has to be ready, as if it were a service; null where it does not, or none is left. */
export function overnightOf({ state, setup, car }: CarScreen): Overnight | null {
  const entries = entriesOf(state.entries);
  const now = retirementOf(entries, car, setup)?.now;
  if (now?.state !== "restarts" || now.by_ms <= state.now) return null;
  const minutes = Math.floor((now.by_ms - state.now) / 60_000);
  const none = { after: "", arrive: null, in_and_out_minutes: 0, kind: "", parc_ferme_after: false };
  return { by_ms: now.by_ms, service: { ...none, service: READY_BY, minutes } };
}

export interface Overnight {
  by_ms: number;
  service: Service;
}

/** The service to plan: the night's work of a car that restarts, the chosen one, the one the car is in, the next, else the last of the event. */
export function serviceToPlan(props: CarScreen): Service | null {
  const { state, setup, car } = props;
  const overnight = overnightOf(props);
  if (overnight && (state.planned ?? READY_BY) === READY_BY) return overnight.service;
  const entries = entriesOf(state.entries);
  const due = currentService(entries, car, setup)?.service ?? nextService(entries, car, setup)?.service;
  const named = setup.services.find((one) => one.service === (state.planned ?? due));
  return named ?? setup.services.at(-1) ?? null;
}

/** What of a plan this device holds, and how its tasks stand. */
export interface HeldOf {
  held: HeldPlan | null;
  standing: Map<string, Standing>;
  change: Change;
}

/** Return what this device holds of the plan of a service. */
export function heldOf({ state, setup }: Pick<CarScreen, "state" | "setup">, service: Service): HeldOf {
  const kept = state.plans.find((one) => one.plan.service === service.service);
  const held = kept ? { ...kept, plan: completed(kept.plan as SaidPlan) } : null;
  const standing = held ? standings(held, state.entries, setup) : new Map<string, Standing>();
  return { held, standing, change: held ? changeSince(held, state.entries, state.queue) : "none" };
}

/** Follows the plan of a service while its screen is open. */
export function usePlanning(props: CarScreen, service: Service): Planning {
  const { state, setup, car, actions } = props;
  const pending = usePending();
  const inside = currentService(entriesOf(state.entries), car, setup);
  const current = inside?.service === service.service ? inside : null;
  const elsewhere = inside && !current ? inside.service : null;
  const { held, standing, change } = heldOf(props, service);
  const at = momentOf(current, props);
  const overnight = service.service === READY_BY ? overnightOf(props) : null;
  const when = overnight ? { at: restFrom(state.now), ready_by: localIso(overnight.by_ms), minutes: null } : { at };
  const ask = (wish: PlanWish) =>
    void pending.run(() => actions.askPlan(service.service, { ...wish, ...when, previous: shownOf(held) }));
  useBetterPlan(props, held);
  const follows = useNewPlan(props, held, change === "work" && at !== null && !state.unreachable, at);
  return {
    ...props,
    service,
    overnight,
    current,
    elsewhere,
    held,
    standing,
    change,
    pending,
    rest: at !== null,
    follows,
    ask,
  };
}

// Only while the car is in, and no longer than the event lets it be late, is there a rest to plan.
function momentOf(current: CurrentService | null, { state, setup }: CarScreen): string | null {
  if (!current || current.due_out_ms === null || state.now < current.in_ms) return null;
  const last_ms = current.due_out_ms + setup.regulations.late_limit_minutes * 60_000;
  return state.now <= last_ms ? restFrom(state.now) : null;
}

// The plan made at once is there first: while anybody sees it, the better one is asked for.
function useBetterPlan({ state, actions }: CarScreen, held: HeldPlan | null): void {
  const quiet = usePending();
  const polls = useRef({ of: "", count: 0 });
  const wanted = held !== null && !held.plan.settled && quiet.problem === null;
  const tick = Math.floor(state.now / TICK_MS);
  useEffect(() => {
    if (!wanted || !held) return;
    const of = JSON.stringify([held.plan.service, held.plan.queue, held.wish]);
    if (polls.current.of !== of) polls.current = { of, count: 0 };
    const timer = setTimeout(() => {
      if (document.hidden || polls.current.count >= MOST_POLLS) return;
      polls.current.count += 1;
      void quiet.run(async () => void (await actions.askQuietly(held.plan.service, held.wish)));
    }, POLL_MS);
    return () => clearTimeout(timer);
  }, [wanted, held?.heard_at, tick]);
}

// Starts, finishes and inspections have the rest planned by itself; a new report waits for a tap. What comes of it is
// taken at once only where it changes nothing for anybody.
function useNewPlan(props: CarScreen, held: HeldPlan | null, wanted: boolean, at: string | null): boolean {
  const { state, actions } = props;
  const quiet = usePending();
  const tried = useRef("");
  const news = `${held?.heard_at} ${Math.max(0, ...state.entries.map((one) => one.arrival))}`;
  useEffect(() => {
    if (!wanted || !held || document.hidden || tried.current === news) return;
    tried.current = news;
    let timer = 0;
    const wish = { ...held.wish, at, previous: shownOf(held) };
    const ask = () =>
      quiet.run(async () => {
        const more = await actions.askQuietly(held.plan.service, wish);
        if (more && tried.current === news) timer = window.setTimeout(() => void ask(), POLL_MS);
      });
    void ask();
    return () => clearTimeout(timer);
  }, [wanted, news]);
  return wanted && quiet.problem === null;
}

/** What was asked for last, or everybody for the service's own minutes. */
export const lastWish = (held: HeldPlan | null): PlanWish => held?.wish ?? PLAIN_WISH;
