/** How long it is good, a note, the PIN; what the signature says, and what it will not count for. */

import type { EventSetup } from "../../kit/api";
import type { Answers, PlaceCheck, Signed } from "../../report/looks";
import type { Hindrance } from "../../report/passing";
import { NewPin, type TwicePin } from "../bits/NewPin";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { componentLabel } from "../labels";
import { Banner } from "../ui/Card";
import { Dock } from "../ui/Dock";
import { SelectField, TextField } from "../ui/Field";
import { looks } from "../words/looks";
import { people } from "../words/people";
import { places as words } from "../words/places";
import type { FormProps } from "./InspectForm";
import type { Draft } from "./keptAnswers";

interface SigningProps extends Pick<FormProps, "setup" | "inspector"> {
  draft: Draft;
  onChange: (some: Partial<Draft>) => void;
  pins: TwicePin;
  onPins: (pins: TwicePin) => void;
}

export function Signing({ setup, inspector, draft, onChange, pins, onPins }: SigningProps) {
  const services = setup.services.map(({ service }) => ({ value: service, label: words.untilService(service) }));
  return (
    <div class="place-signing">
      <SelectField
        label={words.until}
        value={draft.until}
        options={[{ value: "", label: words.untilAlways }, ...services]}
        onChange={(until) => onChange({ until })}
      />
      <TextField label={words.note} lines={2} value={draft.note} onInput={(note) => onChange({ note })} />
      {inspector.has_pin ? (
        <PinField
          label={people.lookPin(inspector.name)}
          value={pins.pin}
          onChange={(pin) => onPins({ ...pins, pin })}
        />
      ) : (
        <>
          <p>{people.lookPinNew}</p>
          <NewPin value={pins} onChange={onPins} />
        </>
      )}
    </div>
  );
}

/** Each job on which the pass will not end the hold, and why: told once all is answered, before it is signed. */
export function Hinders({ setup, found }: { setup: EventSetup; found: Hindrance[] }) {
  const told = found.filter(({ why }) => why !== "own");
  return (
    <div aria-live="polite" class="place-hinders">
      {told.map(({ job, why, checks }) => (
        <Banner key={`${job} ${why}`} tone="caution">
          {words.hinders[why](componentLabel(setup.car_map, job.slice(job.indexOf("/") + 1)), checks.map(looks.named))}
        </Banner>
      ))}
    </div>
  );
}

interface SignDockProps {
  checks: PlaceCheck[];
  answers: Answers;
  person: string;
  signed: Signed[];
  busy: boolean;
  problem: string | null;
  onSign: () => void;
}

export function SignDock({ checks, answers, person, signed, busy, problem, onSign }: SignDockProps) {
  const passed = signed.filter((one) => one.verdict === "passed").length;
  const failed = signed.length - passed;
  const answered = checks.filter(({ check }) => answers[check]).length;
  return (
    <div class="place-dock">
      <ProblemLine text={problem} />
      <Dock
        note={
          <>
            {words.answered(person, answered, checks.length)}. {words.decide}
          </>
        }
        primary={{
          kind: failed > 0 ? "danger" : "primary",
          busy,
          onClick: onSign,
          children: answered < checks.length || signed.length === 0 ? words.signNothing : words.sign(passed, failed),
        }}
      />
    </div>
  );
}
