/** The checks of an inspection: OK, not OK, or not done and why. None is answered by itself. */

import type { Answer, Answers } from "../../report/looks";
import { OneOf } from "../bits/Chips";
import { job as words } from "../words/job";
import { looks } from "../words/looks";

type Said = "ok" | "not" | "skip";

const OK_OF: Record<Said, boolean | null> = { ok: true, not: false, skip: null };

interface Checks {
  checks: string[];
  musts: string[];
  answers: Answers;
  onAnswer: (check: string, answer: Answer) => void;
}

export function Checks({ checks, musts, answers, onAnswer }: Checks) {
  return (
    <fieldset class="stack">
      <legend>{words.checks}</legend>
      {checks.map((check) => {
        const answer = answers[check];
        const named = looks.named(check);
        return (
          <div key={check}>
            <OneOf<Said>
              legend={musts.includes(check) ? words.checkMust(named) : named}
              value={answer ? saidOf(answer) : null}
              options={[
                { value: "ok", label: words.checkOk },
                { value: "not", label: words.checkNot },
                { value: "skip", label: words.checkSkip },
              ]}
              onPick={(said) => onAnswer(check, { ok: OK_OF[said], why: answer?.why ?? "" })}
            />
            {answer && answer.ok === null && (
              <label>
                <span class="label">{words.checkWhy}</span>
                <input
                  value={answer.why}
                  maxLength={200}
                  onInput={(event) => onAnswer(check, { ok: null, why: event.currentTarget.value })}
                />
              </label>
            )}
          </div>
        );
      })}
      <p class="strong">{looks.decide}</p>
    </fieldset>
  );
}

const saidOf = ({ ok }: Answer): Said => (ok === null ? "skip" : ok ? "ok" : "not");
