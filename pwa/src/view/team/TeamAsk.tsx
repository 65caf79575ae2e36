/** Which cars come to which service, how many mechanics there are, and who is away until when. */

import { useState } from "preact/hooks";
import type { TeamWish } from "../../flow/model";
import type { Due } from "../../report/team_plan";
import { AnyOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { carLabel } from "../labels";
import { Away, isNobodyThere, Mechanics } from "../plan/WhoIsThere";
import { plan as planWords } from "../words/plan";
import { service as serviceWords } from "../words/service";
import { team as words } from "../words/team";
import { clockOfAll } from "./clock";
import type { Teaming } from "./useTeam";

export function TeamAsk(teaming: Teaming) {
  const { setup, held, due, ask } = teaming;
  const { busy, problem, run } = usePending();
  const [wish, setWish] = useState<TeamWish>(() => held?.wish ?? firstWish(teaming, due));
  const change = (more: Partial<TeamWish>) => setWish({ ...wish, ...more });
  const nobody = isNobodyThere(setup, wish);
  const [one = ""] = wish.cars;
  const button =
    wish.cars.length === 1 ? words.ask.one(wish.service, one) : words.ask.button(wish.service, wish.cars.join(", "));
  // In the set-up's order, whichever was ticked first.
  const toggle = (car: string, on: boolean) =>
    change({
      cars: setup.cars.flatMap((known) =>
        (known.car === car ? on : wish.cars.includes(known.car)) ? [known.car] : [],
      ),
    });
  return (
    <div class="stack team-ask">
      {!held && <p>{words.none}</p>}
      <label class="plan-which">
        <span class="label">{words.ask.service}</span>
        <select value={wish.service} onChange={(event) => change({ service: event.currentTarget.value })}>
          {setup.services.map((known) => (
            <option key={known.service} value={known.service}>
              {serviceWords.name(known.service, known.after)}
            </option>
          ))}
        </select>
      </label>
      <AnyOf
        legend={words.ask.cars}
        options={setup.cars.map((known) => ({ value: known.car, label: carLabel(known) }))}
        chosen={wish.cars}
        onToggle={toggle}
      />
      {wish.cars.length === 1 && <p class="soft">{words.ask.single}</p>}
      {wish.cars.length > MOST_CARS && <p class="warn">{words.ask.most(MOST_CARS)}</p>}
      {wish.cars.length === 0 && <p class="warn">{words.ask.fewer}</p>}
      <Mechanics {...{ setup, wish, change }} />
      <Away
        {...{ setup, wish, change }}
        clock={held ? (minute: number) => clockOfAll(held, setup, minute * 60) : undefined}
      />
      {nobody && <p class="warn">{planWords.ask.nobody}</p>}
      <button
        type="button"
        class="button main"
        disabled={busy || nobody || wish.cars.length === 0 || wish.cars.length > MOST_CARS}
        onClick={() => run(() => ask(wish))}
      >
        {busy ? words.ask.asking : button}
      </button>
      <ProblemLine text={problem} />
    </div>
  );
}

/** So many the server plans together. */
const MOST_CARS = 10;

/** Everybody at what is due; after the last service the last one, so that there is one to be changed. */
function firstWish({ setup }: Teaming, due: Due | null): TeamWish {
  const last = setup.services.at(-1)?.service ?? "";
  return {
    service: due?.service ?? last,
    cars: (due?.cars ?? setup.cars.map((one) => one.car)).slice(0, MOST_CARS),
    mechanics: null,
    away: {},
    at: null,
  };
}
