/** The seven questions to the driver: one tap each, or one for all. */

import { useState } from "preact/hooks";
import {
  type Answer,
  type Answers,
  askedOf,
  QUESTIONS,
  type Question,
  reportOfAnswers,
  symptomsBehind,
} from "../../report/asking";
import { entriesOf } from "../../report/lists";
import { prefill } from "../../report/prefill";
import { currentService } from "../../report/service";
import { AnyOf, OneOf } from "../bits/Chips";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { symptomLabel } from "../labels";
import type { CarScreen } from "../screen";
import { arrival as words } from "../words/arrival";

const ALL_AS_BEFORE: Answers = Object.fromEntries(
  QUESTIONS.map((question) => [question, { as_before: true, symptoms: [] }]),
);

export function ArrivalScreen({ state, setup, car, actions }: CarScreen) {
  const [answers, setAnswers] = useState<Answers>({});
  const { busy, problem, run } = usePending();
  const entries = entriesOf(state.entries);
  const noted = (questions: Question[]) => words.noted(questions.map((one) => words.topic[one]));
  const count = Object.keys(answers).length;
  const save = (said: Answers, missing: string | null = null) =>
    run(async () => {
      const asked = askedOf(said, currentService(entries, car, setup)?.service ?? null);
      await actions.askDriver(asked, reportOfAnswers(said, prefill(entries, car, setup, state.now), noted));
      actions.go("/service");
    }, missing);
  return (
    <div class="incar stack">
      <h1>{words.title}</h1>
      <p class="soft">{words.how}</p>
      <button type="button" class="button wide" disabled={busy} onClick={() => save(ALL_AS_BEFORE)}>
        {words.allBefore}
      </button>
      {QUESTIONS.map((question) => (
        <Asked
          key={question}
          question={question}
          options={symptomsBehind(question, setup.car_map).map((value) => ({
            value,
            label: symptomLabel(setup.car_map, value),
          }))}
          answer={answers[question]}
          onAnswer={(answer) => setAnswers({ ...answers, [question]: answer })}
        />
      ))}
      <div class="save-bar">
        <ProblemLine text={problem} />
        <button
          type="button"
          class="button main wide"
          aria-disabled={count === 0 || busy}
          onClick={() => save(answers, count > 0 ? null : words.needs)}
        >
          {busy ? words.saving : words.save(count)}
        </button>
      </div>
    </div>
  );
}

interface Asked {
  question: Question;
  options: { value: string; label: string }[];
  answer: Answer | undefined;
  onAnswer: (answer: Answer) => void;
}

function Asked({ question, options, answer, onAnswer }: Asked) {
  const symptoms = answer?.symptoms ?? [];
  return (
    <>
      <OneOf
        legend={words.question[question]}
        value={answer ? (answer.as_before ? "before" : "changed") : null}
        options={[
          { value: "before", label: words.asBefore },
          { value: "changed", label: words.changed },
        ]}
        onPick={(value) => onAnswer({ as_before: value === "before", symptoms: [] })}
      />
      {answer?.as_before === false && (
        <AnyOf
          legend={words.what}
          options={options}
          chosen={symptoms}
          onToggle={(code, on) =>
            onAnswer({ as_before: false, symptoms: on ? [...symptoms, code] : symptoms.filter((one) => one !== code) })
          }
          after={<p class="soft">{words.whatNote}</p>}
        />
      )}
    </>
  );
}
