/** Who is there and how long: asked for with large steps, since nobody types with gloves on. */

import { useState } from "preact/hooks";
import type { PlanWish } from "../../flow/model";
import { clockIn } from "../../kit/time";
import { Stepper } from "../bits/Stepper";
import { plan as words } from "../words/plan";
import { clockAt, noneOf } from "./labels";
import { lastWish, type Planning } from "./usePlanning";
import { Away, by, isNobodyThere, Mechanics, MOST_MINUTES, within } from "./WhoIsThere";

export function AskForm(planning: Planning) {
  const { setup, service, overnight, held, pending, ask } = planning;
  const night = overnight && clockIn(setup.timezone, overnight.by_ms);
  const [wish, setWish] = useState<PlanWish>(() => lastWish(held));
  const change = (more: Partial<PlanWish>) => setWish({ ...wish, ...more });
  const minutes = wish.minutes ?? service.minutes;
  const nobody = isNobodyThere(setup, wish);
  const clock = held ? (minute: number) => clockAt(held.plan, setup, minute * 60) : undefined;
  return (
    <div class="stack">
      {!held && <p>{noneOf(planning)}</p>}
      <Mechanics {...{ setup, wish, change }} />
      {!overnight && (
        <div>
          <span class="label">{words.ask.minutes}</span>
          <Stepper
            label={words.ask.minutes}
            shown={String(minutes)}
            steps={by(-5, -1, 1, 5)}
            onStep={(step) => {
              const next = within(minutes + step, 1, MOST_MINUTES);
              change({ minutes: next === service.minutes ? null : next });
            }}
          />
        </div>
      )}
      <Away {...{ setup, wish, change, clock }} />
      {nobody && <p class="warn">{words.ask.nobody}</p>}
      <button type="button" class="button main" disabled={pending.busy || nobody} onClick={() => ask(wish)}>
        {pending.busy ? words.ask.asking : night ? words.ask.buttonOvernight(night) : words.ask.button(service.service)}
      </button>
    </div>
  );
}
