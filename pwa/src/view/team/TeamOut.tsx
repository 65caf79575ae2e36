/** What is not in the plan, car by car: why, and for whom it is left. */

import type { LeftOut } from "../../kit/api";
import { groupLabel } from "../plan/labels";
import { LeftOutText } from "../plan/LeftOutText";
import { plan as planWords } from "../words/plan";
import { team as words } from "../words/team";
import type { Part, Teaming } from "./useTeam";

export function TeamOut(teaming: Teaming) {
  return (
    <div class="team-out">
      {teaming.parts.map((part) => (
        <OfCar key={part.plan.car} {...teaming} part={part} />
      ))}
    </div>
  );
}

function OfCar({ part, ...teaming }: Teaming & { part: Part }) {
  const { car, left_out } = part.plan;
  const little = left_out.filter((one) => one.why === "value");
  return (
    <section class="stack" aria-labelledby={`out-${car}`}>
      <h2 id={`out-${car}`}>
        {words.out(car)} ({left_out.length})
      </h2>
      {left_out.length === 0 && <p>{planWords.out.none}</p>}
      <Cards {...teaming} some={left_out.filter((one) => one.why !== "value")} />
      {little.length > 0 && (
        <details>
          <summary>{planWords.out.little(little.length)}</summary>
          <Cards {...teaming} some={little} />
        </details>
      )}
    </section>
  );
}

function Cards({ some, setup, leads }: Teaming & { some: LeftOut[] }) {
  if (!some.length) return null;
  return (
    <ul class="jobs">
      {some.map((one) => (
        <li key={one.job} class="job-card">
          <h3>{groupLabel(setup, one.job)}</h3>
          <LeftOutText setup={setup} one={one} chance={leads} />
        </li>
      ))}
    </ul>
  );
}
