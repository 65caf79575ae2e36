/** The plans of all cars that are at hand: each is of all of them at once, never of one alone. */

import { type CarPart, chosenTeam, teamChoices } from "../../report/team_plan";
import type { Choice } from "../../report/plan";
import { type ChoiceCard, ChoiceCards } from "../plan/ChoiceCards";
import { chanceOf } from "../plan/Facts";
import { clockAt } from "../plan/labels";
import { plan as planWords } from "../words/plan";
import { team as words } from "../words/team";
import type { Teaming } from "./useTeam";

export function TeamChoices(teaming: Teaming & { held: NonNullable<Teaming["held"]> }) {
  const { held, actions } = teaming;
  const all = teamChoices(held.plan);
  return (
    <ChoiceCards
      cards={all.map((choice) => cardOf(teaming, choice))}
      chosen={held.plan.cars[0]?.choice ?? "on-time"}
      onPick={(choice) => actions.chooseTeamPlan(choice)}
    />
  );
}

function cardOf({ setup, held, leads }: Teaming & { held: NonNullable<Teaming["held"]> }, choice: Choice): ChoiceCard {
  const { cars } = chosenTeam(held.plan, choice);
  const lines = cars.map((one) => {
    const left = one.left_out.filter((out) => out.why !== "value").length;
    const end =
      one.late_min > 0 ? words.late(one.late_min) : planWords.choice.likely(clockAt(one, setup, one.finish_s));
    return words.choice(one.car, `${planWords.choice.left(left)} · ${end}`);
  });
  const isLate = cars.some((one) => one.late_min > 0);
  const chance = Math.min(...cars.map((one) => one.on_time));
  const name = choice === "on-time" && isLate ? planWords.choice.late_name : planWords.choice.name[choice];
  // Where one car is late its minutes are the figure; else how likely all are in time.
  return {
    choice,
    name: name ?? choice,
    lines,
    figure: isLate ? null : leads && planWords.timesInTen(chanceOf(chance)),
    late: isLate,
    holds: choice === "on-hold" ? words.carsHold(heldCars(cars)) : null,
  };
}

/** Those that would have to leave late to have all in that holds them. */
const heldCars = (cars: CarPart[]) => cars.filter((one) => one.needs !== null).map((one) => one.car);
