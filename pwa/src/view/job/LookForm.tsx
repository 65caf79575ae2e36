/** Somebody looked: one signature for what was ticked, passed or failed; a cage needs the official's words. */

import type { Entry, EventSetup, Job } from "../../kit/api";
import type { Identity, Look } from "../../flow/model";
import { FormTitle } from "../bits/FormTitle";
import { NewPin, type TwicePin, wrongWith } from "../bits/NewPin";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import { type Answers, checksOf, type Lacking, lackingFor, mustsOf, rowsOf } from "../../report/looks";
import { isPlainLook } from "../queue/sections";
import { job as words } from "../words/job";
import { looks } from "../words/looks";
import { people } from "../words/people";
import { Checks } from "./Checks";
import { repairedBy } from "./history";
import type { JobPart } from "./part";
import { Official } from "./Official";
import { PickLooks } from "./PickLooks";

const NO_PIN: TwicePin = { pin: "", again: "" };

interface Draft {
  ticked: string[];
  answers: Answers;
  until: string;
  note: string;
  official: { shown_to: string; said: string };
  pins: TwicePin;
}

const EMPTY: Draft = {
  ticked: [],
  answers: {},
  until: "",
  note: "",
  official: { shown_to: "", said: "" },
  pins: NO_PIN,
};

interface LookFormProps extends JobPart {
  valid: Entry[];
}

/** The job itself, and for a plain look all the others of its place that wait for one. */
const offered = (job: Job, jobs: Job[]) =>
  job.group === "cage"
    ? [job]
    : [job, ...jobs.filter((one) => one.zone === job.zone && one.job !== job.job && isPlainLook(one))];

/** The form, where an inspector is on the phone. */
export function LookForm(props: LookFormProps) {
  const { state, setup, job } = props;
  if (!state.identity?.roles.includes("inspector")) return <FetchInspector setup={setup} />;
  const shown = offered(job, state.queue?.answer.jobs ?? []);
  return <SignLook {...props} inspector={state.identity} shown={shown} />;
}

interface SignLookProps extends LookFormProps {
  inspector: Identity;
  shown: Job[];
}

function SignLook({ setup, actions, job, onDone, valid, inspector, shown }: SignLookProps) {
  const { draft, change } = useDraft<Draft>(() => ({ ...EMPTY, ticked: shown.length === 1 ? [job.job] : [] }));
  const { busy, problem, run } = usePending();
  const { person, has_pin } = inspector;
  const chosen = shown.filter((one) => draft.ticked.includes(one.job));
  const checks = checksOf(chosen.length ? chosen : [job], setup.looks);
  const musts = mustsOf(chosen.length ? chosen : [job], setup.check_lists);
  const not_ok = checks.some((check) => draft.answers[check]?.ok === false);
  const sign = (verdict: Look["verdict"]) =>
    run(
      async () => {
        const keys = chosen.map((one) => one.job);
        change({ pins: NO_PIN });
        if (!has_pin) await actions.setPin(draft.pins.pin, "");
        await actions.inspect(keys, lookOf(draft, verdict, checks), draft.pins.pin);
        onDone();
      },
      whatIsMissing(verdict, chosen, not_ok, lackingFor(checks, musts, draft.answers), job, draft) ??
        pinMissing(draft.pins, has_pin),
    );
  return (
    <section class="sheet" aria-labelledby="look-title">
      <FormTitle id="look-title" text={words.lookTitle} />
      {job.group === "cage" && <Official said={draft.official} onChange={(official) => change({ official })} />}
      <PickLooks
        map={setup.car_map}
        looks={shown}
        ticked={draft.ticked}
        repaired={shown.map((one) => one.job).filter((key) => repairedBy(valid, key, person))}
        onChange={(ticked) => change({ ticked })}
      />
      <Checks
        checks={checks}
        musts={musts}
        answers={draft.answers}
        onAnswer={(check, answer) => change({ answers: { ...draft.answers, [check]: answer } })}
      />
      <Until setup={setup} until={draft.until} onChange={(until) => change({ until })} />
      <label>
        <span class="label">{words.note}</span>
        <textarea
          value={draft.note}
          maxLength={1000}
          onInput={(event) => change({ note: event.currentTarget.value })}
        />
      </label>
      <OwnPin inspector={inspector} pins={draft.pins} onChange={(pins) => change({ pins })} />
      <ProblemLine text={problem} />
      <div class="row even">
        <button type="button" class="button main" aria-disabled={not_ok || busy} onClick={() => sign("passed")}>
          {words.pass}
        </button>
        <button type="button" class="button" aria-disabled={busy} onClick={() => sign("failed")}>
          {words.fail}
        </button>
      </div>
    </section>
  );
}

/** What is signed. */
function lookOf({ answers, until, official, note }: Draft, verdict: Look["verdict"], checks: string[]): Look {
  return {
    verdict,
    checks: rowsOf(checks, answers),
    until: until || null,
    shown_to: official.shown_to.trim() || null,
    official_said: official.said.trim() || null,
    note: note.trim() || null,
  };
}

interface UntilProps {
  setup: EventSetup;
  until: string;
  onChange: (until: string) => void;
}

function Until({ setup, until, onChange }: UntilProps) {
  return (
    <label>
      <span class="label">{words.until}</span>
      <select value={until} onChange={(event) => onChange(event.currentTarget.value)}>
        <option value="">{words.untilAlways}</option>
        {setup.services.map(({ service }) => (
          <option key={service} value={service}>
            {words.untilService(service)}
          </option>
        ))}
      </select>
    </label>
  );
}

interface OwnPinProps {
  inspector: Identity;
  pins: TwicePin;
  onChange: (pins: TwicePin) => void;
}

/** The inspector's own PIN, or a new one where there is none on this phone yet. */
function OwnPin({ inspector, pins, onChange }: OwnPinProps) {
  if (inspector.has_pin) {
    return (
      <PinField
        label={people.lookPin(inspector.name)}
        value={pins.pin}
        onChange={(pin) => onChange({ ...pins, pin })}
      />
    );
  }
  return (
    <>
      <p>{people.lookPinNew}</p>
      <NewPin value={pins} onChange={onChange} />
    </>
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
  lacking: Lacking | null,
  { group }: Job,
  { official }: Draft,
): string | null {
  if (chosen.length === 0) return words.pickOne;
  if (verdict === "failed") return null;
  if (not_ok) return words.passHeld;
  if (group === "cage" && !(official.shown_to.trim() && official.said.trim())) return words.cage.needs;
  if (lacking) return words.checkLacks[lacking.lacks](lacking.checks.map(looks.named));
  return null;
}
