/** How many mechanics there are and who is away until when, of one car's plan and of the team's. */

import type { EventSetup, PersonOf } from "../../kit/api";
import { AWAY_FOR_ALL, isAwayForAll } from "../../report/plan";
import { AnyOf, OneOf } from "../bits/Chips";
import { Stepper } from "../bits/Stepper";
import { personName } from "../labels";
import { plan as words } from "../words/plan";
import { namesOf } from "./labels";

/** What is asked of people, whatever is planned. */
export interface People {
  /** `null`: all of them. */
  mechanics: number | null;
  /** Person → minute from when they are there. */
  away: Record<string, number>;
}

export interface WhoIsThereProps {
  setup: EventSetup;
  wish: People;
  change: (more: Partial<People>) => void;
  /** A minute of the plan in words, where its clock is known: "10:32". */
  clock?: ((minute: number) => string) | undefined;
}

export const by = (...steps: number[]) =>
  steps.map((step) => ({ by: step, label: step > 0 ? `+${step}` : `−${-step}` }));
export const within = (value: number, least: number, most: number) => Math.min(most, Math.max(least, value));

/** A day is the most that the server plans. */
export const MOST_MINUTES = 1440;
const AWAY_MINUTES = 10;

const withRole = (setup: EventSetup, ...roles: PersonOf["roles"]) =>
  setup.people.filter((one) => one.roles.some((role) => roles.includes(role)));

const countOf = (setup: EventSetup, { mechanics }: People) => {
  const all = withRole(setup, "mechanic").length;
  return within(mechanics ?? all, 1, Math.max(1, all));
};

/** The mechanics who work by what is asked. */
const workingOf = (setup: EventSetup, wish: People): string[] =>
  withRole(setup, "mechanic")
    .slice(0, countOf(setup, wish))
    .flatMap(({ person }) => (isAwayForAll(wish.away[person]) ? [] : [person]));

/** The server plans for nobody, too, and leaves all of it out: that is no plan to work by. */
export const isNobodyThere = (setup: EventSetup, wish: People): boolean =>
  workingOf(setup, wish).length === 0 &&
  withRole(setup, "inspector").every((one) => isAwayForAll(wish.away[one.person]));

export function Mechanics({ setup, wish, change }: WhoIsThereProps) {
  const all = withRole(setup, "mechanic").length;
  const count = countOf(setup, wish);
  return (
    <div>
      <span class="label">{words.ask.mechanics}</span>
      <Stepper
        label={words.ask.mechanics}
        shown={String(count)}
        steps={by(-1, 1)}
        onStep={(step) => {
          const next = within(count + step, 1, all);
          change({ mechanics: next === all ? null : next });
        }}
      />
      <p class="soft">{words.ask.mechanicsNote(namesOf(setup, workingOf(setup, wish)))}</p>
    </div>
  );
}

export function Away({ setup, wish, change, clock }: WhoIsThereProps) {
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
                shown={clock ? `${minute} (${clock(minute)})` : String(minute)}
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
