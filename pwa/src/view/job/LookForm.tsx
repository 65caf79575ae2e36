/** Somebody looked: one signature for what was ticked, passed or failed; a cage needs the official's words. */

import { useState } from "preact/hooks";
import type { Entry, EventSetup, Job } from "../../kit/api";
import type { Look } from "../../flow/model";
import { OneOf } from "../bits/Chips";
import { FormTitle } from "../bits/FormTitle";
import { NewPin, type TwicePin, wrongWith } from "../bits/NewPin";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { checksOf } from "../../report/looks";
import { isPlainLook } from "../queue/sections";
import { job as words } from "../words/job";
import { looks } from "../words/looks";
import { people } from "../words/people";
import { repairedBy } from "./history";
import type { JobPart } from "./part";
import { Official } from "./Official";
import { PickLooks } from "./PickLooks";

type Answer = "ok" | "not" | "skip";

const NO_PIN: TwicePin = { pin: "", again: "" };

interface LookFormProps extends JobPart {
  valid: Entry[];
}

/** The job itself, and for a plain look all the others of its place that wait for one. */
const offered = (job: Job, jobs: Job[]) =>
  job.group === "cage"
    ? [job]
    : [job, ...jobs.filter((one) => one.zone === job.zone && one.job !== job.job && isPlainLook(one))];

export function LookForm(props: LookFormProps) {
  const { state, setup, actions, job, onDone, valid } = props;
  const person = state.identity?.person ?? "";
  const shown = offered(job, state.queue?.answer.jobs ?? []);
  const [ticked, setTicked] = useState<string[]>(shown.length === 1 ? [job.job] : []);
  const [answers, setAnswers] = useState<Record<string, Answer>>({});
  const [until, setUntil] = useState("");
  const [note, setNote] = useState("");
  const [official, setOfficial] = useState({ shown_to: "", said: "" });
  const [pins, setPins] = useState(NO_PIN);
  const [problem, setProblem] = useState<string | null>(null);
  const pending = usePending();
  if (!state.identity?.roles.includes("inspector")) return <FetchInspector setup={setup} />;

  const { has_pin, name } = state.identity;
  const cage = job.group === "cage";
  const chosen = shown.filter((one) => ticked.includes(one.job));
  const checks = checksOf(chosen.length ? chosen : [job], setup.looks);
  const not_ok = checks.some((check) => answers[check] === "not");
  const sign = (verdict: Look["verdict"]) => {
    if (pending.busy) return;
    const missing = whatIsMissing(verdict, chosen, not_ok, cage, official) ?? pinMissing(pins, has_pin);
    setProblem(missing);
    if (missing) return;
    const look: Look = {
      verdict,
      checks: checks.flatMap((check) => {
        const answer = answers[check] ?? "skip";
        return answer === "skip" ? [] : [{ check, ok: answer === "ok" }];
      }),
      until: until || null,
      shown_to: official.shown_to.trim() || null,
      official_said: official.said.trim() || null,
      note: note.trim() || null,
    };
    pending.run(async () => {
      setPins(NO_PIN);
      if (!has_pin) await actions.setPin(pins.pin, "");
      await actions.inspect(
        chosen.map((one) => one.job),
        look,
        pins.pin,
      );
      onDone();
    });
  };
  return (
    <section class="sheet" aria-labelledby="look-title">
      <FormTitle id="look-title" text={words.lookTitle} />
      {cage && <Official said={official} onChange={setOfficial} />}
      <PickLooks
        map={setup.car_map}
        looks={shown}
        ticked={ticked}
        repaired={shown.map((one) => one.job).filter((key) => repairedBy(valid, key, person))}
        onChange={setTicked}
      />
      <fieldset class="stack">
        <legend>{words.checks}</legend>
        {checks.map((check) => (
          <OneOf<Answer>
            key={check}
            legend={looks.named(check)}
            value={answers[check] ?? "skip"}
            options={[
              { value: "ok", label: words.checkOk },
              { value: "not", label: words.checkNot },
              { value: "skip", label: words.checkSkip },
            ]}
            onPick={(answer) => setAnswers({ ...answers, [check]: answer })}
          />
        ))}
        <p class="strong">{looks.decide}</p>
      </fieldset>
      <label>
        <span class="label">{words.until}</span>
        <select value={until} onChange={(event) => setUntil(event.currentTarget.value)}>
          <option value="">{words.untilAlways}</option>
          {setup.services.map(({ service }) => (
            <option key={service} value={service}>
              {words.untilService(service)}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span class="label">{words.note}</span>
        <textarea value={note} maxLength={1000} onInput={(event) => setNote(event.currentTarget.value)} />
      </label>
      {has_pin ? (
        <PinField label={people.lookPin(name)} value={pins.pin} onChange={(pin) => setPins({ ...pins, pin })} />
      ) : (
        <>
          <p>{people.lookPinNew}</p>
          <NewPin value={pins} onChange={setPins} />
        </>
      )}
      <ProblemLine text={problem ?? pending.problem} />
      <div class="row even">
        <button type="button" class="button main" aria-disabled={not_ok || pending.busy} onClick={() => sign("passed")}>
          {words.pass}
        </button>
        <button type="button" class="button" aria-disabled={pending.busy} onClick={() => sign("failed")}>
          {words.fail}
        </button>
      </div>
    </section>
  );
}

/** The sentence that says what is wrong with the PIN typed, or null. */
function pinMissing(pins: TwicePin, has_pin: boolean): string | null {
  if (!has_pin) return wrongWith(pins);
  return pins.pin === "" ? people.lookPinNeeded : null;
}

/** Who may look, for somebody who may not. */
function FetchInspector({ setup }: { setup: EventSetup }) {
  const names = setup.people.filter((one) => one.roles.includes("inspector")).map((one) => one.name);
  return <p class="sheet">{names.length ? words.lookRole(names.join(", ")) : words.lookNobody}</p>;
}

/** The sentence that says what stands in the way of this signature, or null. */
function whatIsMissing(
  verdict: Look["verdict"],
  chosen: Job[],
  not_ok: boolean,
  cage: boolean,
  official: { shown_to: string; said: string },
): string | null {
  if (chosen.length === 0) return words.pickOne;
  if (verdict === "failed") return null;
  if (not_ok) return words.passHeld;
  if (cage && !(official.shown_to.trim() && official.said.trim())) return words.cage.needs;
  return null;
}
