/** The release: what stands between the work and the road is answered first; on hold it takes a reason and a PIN. */

import { useState } from "preact/hooks";
import { type Ask, asksOf } from "../../queue/asks";
import { entriesOf, ofCar } from "../../report/lists";
import { NewPin, type TwicePin, wrongWith } from "../bits/NewPin";
import { PinField } from "../bits/PinField";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import { personName, timeOf } from "../labels";
import type { AtService } from "../screen";
import { Banner } from "../ui/Card";
import { Dock } from "../ui/Dock";
import { TextField } from "../ui/Field";
import { people } from "../words/people";
import { service as words } from "../words/service";
import { type Answers, answersOf, Asks, keyOf } from "./Asks";
import { visitOf } from "./day";

interface Draft {
  answers: Answers;
  reason: string;
  pins: TwicePin;
}

const NO_PIN: TwicePin = { pin: "", again: "" };
const EMPTY: Draft = { answers: {}, reason: "", pins: NO_PIN };

export function ReleasePage(props: AtService) {
  const { state, setup, car, service } = props;
  const { draft, change, reset } = useDraft(EMPTY);
  const [asks] = useState(() => asksOf(entriesAt(props), setup));
  const { busy, problem, run } = usePending();
  const shown = state.release?.shown ?? "not-known";
  const is_open = shown !== "nothing-open";
  const signs = is_open || draft.reason.trim() !== "";
  const has_pin = state.identity?.has_pin ?? false;
  const release = () =>
    run(
      () => releaseIt(props, draft, asks, { signs, has_pin, reset }),
      missing(draft, asks, { is_open, signs, has_pin }),
    );
  const { released } = visitOf(entriesAt(props), car, setup, service.service);
  return (
    <>
      <a class="button quiet back" href="#/service">
        {words.release.back}
      </a>
      <h1>{words.release.title}</h1>
      <p class="soft">{words.release.what}</p>
      {released && (
        <Banner tone="note">
          {words.release.released(personName(setup, released.person), timeOf(setup, released.at))}
        </Banner>
      )}
      <Asks {...props} asks={asks} answers={draft.answers} onAnswer={(answers) => change({ answers })} />
      {is_open && <Banner tone="hold">{shown === "hold" ? words.release.onHold : words.release.notKnown}</Banner>}
      <TextField
        label={is_open ? words.release.reason : words.release.noteOptional}
        lines={2}
        value={draft.reason}
        onInput={(reason) => change({ reason })}
      />
      {signs && <Pin {...props} pins={draft.pins} onPins={(pins) => change({ pins })} />}
      <div class="service-dock">
        <ProblemLine text={problem} />
        <Dock
          primary={{
            kind: is_open ? "danger" : "primary",
            busy,
            onClick: release,
            children: shown === "hold" ? words.release.buttonHold : words.release.button,
          }}
        />
      </div>
    </>
  );
}

const entriesAt = ({ state, car }: AtService) => ofCar(entriesOf(state.entries), car);

interface Standing {
  /** It is signed with the own PIN. */
  signs: boolean;
  has_pin: boolean;
}

async function releaseIt(
  props: AtService,
  draft: Draft,
  asks: Ask[],
  { signs, has_pin, reset }: Standing & { reset: () => void },
) {
  const { actions, service, state } = props;
  const { pin } = draft.pins;
  if (signs && !has_pin) await actions.setPin(pin, "");
  const answers = answersOf(asks, draft.answers, state.identity?.person ?? "");
  await actions.releaseCar(service.service, { reason: draft.reason.trim(), answers, pin: signs ? pin : null });
  reset();
}

/** The sentence that says what stands in the way, or null. */
function missing(
  { answers, reason, pins }: Draft,
  asks: Ask[],
  { is_open, signs, has_pin }: Standing & { is_open: boolean },
): string | null {
  const open = asks.filter((ask) => !answers[keyOf(ask)]);
  if (open.length > 0) return words.release.answerFirst(open.length);
  const undone = asks.map((ask) => answers[keyOf(ask)]).filter((one) => one?.ok === false);
  if (undone.some((one) => one?.why.trim() === "")) return words.release.sayWhy;
  if ((is_open || undone.length > 0) && reason.trim() === "") return words.release.needReason;
  if (!signs) return null;
  if (!has_pin) return wrongWith(pins);
  return pins.pin === "" ? people.releasePinNeeded : null;
}

interface PinProps extends AtService {
  pins: TwicePin;
  onPins: (pins: TwicePin) => void;
}

function Pin({ state, pins, onPins }: PinProps) {
  if (state.identity?.has_pin) {
    return (
      <PinField
        label={people.releasePin(state.identity.name)}
        value={pins.pin}
        onChange={(pin) => onPins({ ...pins, pin })}
      />
    );
  }
  return (
    <>
      <p>{words.release.pinNew}</p>
      <NewPin value={pins} onChange={onPins} />
    </>
  );
}
