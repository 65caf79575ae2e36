/** Every check of the inspection answered, what a pass will not count for told, one signature with the own PIN. */

import { useState } from "preact/hooks";
import type { Job } from "../../kit/api";
import type { Identity } from "../../flow/model";
import { checksOf, lackingFor, type PlaceCheck, signedOf } from "../../report/looks";
import { hindrancesOf, workedOn } from "../../report/passing";
import { CageCard } from "../job/CageCard";
import { Official } from "../job/Official";
import { type TwicePin, wrongWith } from "../bits/NewPin";
import { usePending } from "../bits/usePending";
import { componentLabel } from "../labels";
import { Banner } from "../ui/Card";
import { looks } from "../words/looks";
import { people } from "../words/people";
import { places as words } from "../words/places";
import { Checks } from "./Checks";
import type { InspectProps } from "./InspectPage";
import { type Draft, forgetAnswers, keepAnswers, keptAnswers, keyOf } from "./keptAnswers";
import { Hinders, SignDock, Signing } from "./Signing";
import { partsText } from "./shown";

const NO_PIN: TwicePin = { pin: "", again: "" };

export interface FormProps extends InspectProps {
  chosen: Job[];
  inspector: Identity;
  /** It is on the disk. */
  onSigned: () => void;
}

export function InspectForm(props: FormProps) {
  const { setup, chosen, inspector, entries } = props;
  const checks = checksOf(chosen, setup);
  const { draft, change, forget } = useKept(props, checks);
  const [pins, setPins] = useState(NO_PIN);
  const is_cage = chosen.some((job) => job.group === "cage");
  const own = chosen.filter((job) => workedOn(job, entries, inspector.person));
  const { busy, problem, sign, signed } = useSignature(props, { draft, pins, checks, setPins, forget });
  return (
    <>
      <p>{partsText(chosen, setup)}</p>
      {is_cage && <CageCard />}
      <Banner tone="note">{words.rule}</Banner>
      {own.map((job) => (
        <Banner key={job.job} tone="caution">
          {words.hinders.own(componentLabel(setup.car_map, job.component), [])}
        </Banner>
      ))}
      {is_cage && <Official said={draft.official} onChange={(official) => change({ official })} />}
      <Checks {...props} checks={checks} draft={draft} onChange={change} />
      <Signing {...props} draft={draft} onChange={change} pins={pins} onPins={setPins} />
      {lackingFor(checks, draft.answers) === null && <Hinders setup={setup} found={hindered(props, draft, checks)} />}
      <SignDock
        checks={checks}
        answers={draft.answers}
        person={inspector.name}
        signed={signed}
        {...{ busy, problem }}
        onSign={sign}
      />
    </>
  );
}

/** What is answered, kept at each change. */
function useKept({ state, setup, car, chosen }: FormProps, checks: PlaceCheck[]) {
  const key = keyOf(setup.event, car, state.route.subject ?? "", state.identity?.device ?? "");
  const [draft, setDraft] = useState(() =>
    keptAnswers(
      key,
      chosen.map((one) => one.job),
      checks,
    ),
  );
  const change = (some: Partial<Draft>) => {
    setDraft((now) => {
      const next = { ...now, ...some };
      keepAnswers(key, next);
      return next;
    });
  };
  return { draft, change, forget: () => forgetAnswers(key) };
}

interface Given {
  draft: Draft;
  pins: TwicePin;
  checks: PlaceCheck[];
  setPins: (pins: TwicePin) => void;
  forget: () => void;
}

function useSignature({ actions, chosen, inspector, onSigned }: FormProps, given: Given) {
  const { draft, pins, checks, setPins, forget } = given;
  const { busy, problem, run } = usePending();
  const signed = signedOf(chosen, checks, draft.answers);
  const sign = () =>
    run(
      async () => {
        setPins(NO_PIN);
        if (!inspector.has_pin) await actions.setPin(pins.pin, "");
        await actions.inspect({ signed, ...saidOf(draft) }, pins.pin);
        forget();
        onSigned();
      },
      missing(given, inspector.has_pin),
    );
  return { busy, problem, sign, signed };
}

/** The sentence that says what stands in the way of the signature, or null. */
function missing({ draft, pins, checks }: Given, has_pin: boolean): string | null {
  const lacking = lackingFor(checks, draft.answers);
  if (lacking) return words.lacks[lacking.lacks](lacking.checks.map(looks.named));
  if (!has_pin) return wrongWith(pins);
  return pins.pin === "" ? people.lookPinNeeded : null;
}

const saidOf = ({ until, official, note }: Draft) => ({
  until: until || null,
  shown_to: official.shown_to.trim() || null,
  official_said: official.said.trim() || null,
  note: note.trim() || null,
});

const hindered = ({ chosen, inspector, entries, valid }: FormProps, draft: Draft, checks: PlaceCheck[]) =>
  hindrancesOf(chosen, {
    signed: signedOf(chosen, checks, draft.answers),
    checks,
    has_until: draft.until !== "",
    has_official: draft.official.shown_to.trim() !== "" && draft.official.said.trim() !== "",
    person: inspector.person,
    entries,
    valid,
  });
