/** Who is there and how long: asked for with large steps, since nobody types with gloves on. */

import { useState } from "preact/hooks";
import type { PlanWish } from "../../flow/model";
import type { EventSetup, PersonOf } from "../../kit/api";
import { clockIn } from "../../kit/time";
import { AnyOf, OneOf } from "../bits/Chips";
import { Stepper } from "../bits/Stepper";
import { AWAY_FOR_ALL, isAwayForAll } from "../../report/plan";
import { personName } from "../labels";
import { plan as words } from "../words/plan";
import { namesOf, noneOf } from "./labels";
import { lastWish, type Planning } from "./usePlanning";

const by = (...steps: number[]) => steps.map((step) => ({ by: step, label: step > 0 ? `+${step}` : `−${-step}` }));
const within = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value));

const withRole = (setup: EventSetup, ...roles: PersonOf["roles"]) =>
  setup.people.filter((one) => one.roles.some((role) => roles.includes(role)));

/** A day is the most that the server plans. */
const MOST_MINUTES = 1440;
const AWAY_MINUTES = 10;

export function AskForm(planning: Planning) {
  const { setup, service, overnight, held, pending, ask } = planning;
  const night = overnight && clockIn(setup.timezone, overnight.by_ms);
  const [wish, setWish] = useState<PlanWish>(() => lastWish(held));
  const change = (more: Partial<PlanWish>) => setWish({ ...wish, ...more });
  const mechanics = withRole(setup, "mechanic");
  const count = within(wish.mechanics ?? mechanics.length, 1, Math.max(1, mechanics.length));
  const minutes = wish.minutes ?? service.minutes;
  const working = mechanics.slice(0, count).flatMap(({ person }) => (isAwayForAll(wish.away[person]) ? [] : [person]));
  // The server plans for nobody, too, and leaves all of it out: that is no plan to work by.
  const nobody =
    working.length === 0 && withRole(setup, "inspector").every((one) => isAwayForAll(wish.away[one.person]));
  return (
    <div class="stack">
      {!held && <p>{noneOf(planning)}</p>}
      <div>
        <span class="label">{words.ask.mechanics}</span>
        <Stepper
          label={words.ask.mechanics}
          shown={String(count)}
          steps={by(-1, 1)}
          onStep={(step) => {
            const next = within(count + step, 1, mechanics.length);
            change({ mechanics: next === mechanics.length ? null : next });
          }}
        />
        <p class="soft">{words.ask.mechanicsNote(namesOf(setup, working))}</p>
      </div>
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
      <Away {...{ setup, wish, change }} />
      {nobody && <p class="warn">{words.ask.nobody}</p>}
      <button type="button" class="button main" disabled={pending.busy || nobody} onClick={() => ask(wish)}>
        {pending.busy ? words.ask.asking : night ? words.ask.buttonOvernight(night) : words.ask.button(service.service)}
      </button>
    </div>
  );
}

function Away({
  setup,
  wish,
  change,
}: {
  setup: EventSetup;
  wish: PlanWish;
  change: (more: Partial<PlanWish>) => void;
}) {
  const set = (person: string, minute: number | null) => {
    const { [person]: _, ...others } = wish.away;
    change({ away: minute === null ? others : { ...others, [person]: minute } });
  };
  return (
    <>
      <AnyOf
        legend={words.ask.away}
        options={withRole(setup, "mechanic", "inspector").map((one) => ({ value: one.person, label: one.name }))}
        chosen={Object.keys(wish.away)}
        onToggle={(person, on) => set(person, on ? AWAY_MINUTES : null)}
      />
      {Object.entries(wish.away).map(([person, minute]) => (
        <div key={person} class="stack">
          <OneOf
            legend={words.ask.awayHow(personName(setup, person))}
            value={isAwayForAll(minute) ? "all" : "until"}
            options={[
              { value: "until", label: words.ask.awayAtFirst },
              { value: "all", label: words.ask.awayForAll },
            ]}
            onPick={(how) => set(person, how === "all" ? AWAY_FOR_ALL : AWAY_MINUTES)}
          />
          {!isAwayForAll(minute) && (
            <div>
              <span class="label">{words.ask.awayUntil(personName(setup, person))}</span>
              <Stepper
                label={words.ask.awayUntil(personName(setup, person))}
                shown={String(minute)}
                steps={by(-5, -1, 1, 5)}
                onStep={(step) => set(person, within(minute + step, 1, MOST_MINUTES - 1))}
              />
            </div>
          )}
        </div>
      ))}
    </>
  );
}
