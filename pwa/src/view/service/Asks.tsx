/** What is asked before the car leaves: wheel nuts and by whom, toe, pedal, tools. None is answered by itself. */

import type { Answered, Ask } from "../../queue/asks";
import type { EventSetup, PersonOf } from "../../kit/api";
import { zoneLabel } from "../labels";
import { hands } from "../job/part";
import type { AtService } from "../screen";
import { Chips, Segmented } from "../ui/Choice";
import { TextField } from "../ui/Field";
import { service as words } from "../words/service";

/** What was said to one question; by: who torqued the nuts. */
export interface Said {
  ok: boolean;
  by: string | null;
  why: string;
}

export type Answers = Readonly<Record<string, Said>>;

export const keyOf = ({ ask, place }: Ask) => `${ask} ${place}`;

/** The answers as they are saved with the release. */
export const answersOf = (asks: Ask[], answers: Answers, person: string): Answered[] =>
  asks.flatMap((ask) => {
    const said = answers[keyOf(ask)];
    if (!said) return [];
    const { entries, place } = ask;
    const why = said.why.trim();
    if (!said.ok) return { ask: ask.ask, place, entries, ok: null, ...(why ? { why } : {}) };
    return { ask: ask.ask, place, entries, ok: true, by: said.by ?? person };
  });

/** Who may have torqued the nuts: whoever works in the bay and did not work there. */
function crewIn(setup: EventSetup, { not_by }: Ask): PersonOf[] {
  const works = setup.people.filter((one) => one.roles.includes("mechanic") || one.roles.includes("inspector"));
  return (works.length > 0 ? works : hands(setup)).filter((one) => !not_by.includes(one.person));
}

interface AsksProps extends AtService {
  asks: Ask[];
  answers: Answers;
  onAnswer: (answers: Answers) => void;
}

export function Asks(props: AsksProps) {
  const { asks, answers, onAnswer } = props;
  return (
    <section class="service-asks" aria-labelledby="asks-title">
      <h2 id="asks-title">{words.release.asks}</h2>
      {asks.map((ask) => (
        <One
          key={keyOf(ask)}
          {...props}
          ask={ask}
          said={answers[keyOf(ask)]}
          onSay={(said) => onAnswer({ ...answers, [keyOf(ask)]: said })}
        />
      ))}
    </section>
  );
}

interface OneProps extends AsksProps {
  ask: Ask;
  said: Said | undefined;
  onSay: (said: Said) => void;
}

function One({ setup, ask, said, onSay }: OneProps) {
  const where = ask.place ? zoneLabel(setup.car_map, ask.place) : "";
  const legend = words.release.ask[ask.ask](where);
  return (
    <div class="service-ask">
      {ask.ask === "nuts" ? (
        <Chips
          legend={legend}
          options={[
            ...crewIn(setup, ask).map((one) => ({ value: one.person, label: one.name })),
            { value: "", label: words.release.notDone },
          ]}
          chosen={said ? [said.by ?? ""] : []}
          onToggle={(by) => onSay({ ok: by !== "", by: by || null, why: said?.why ?? "" })}
        />
      ) : (
        <Segmented
          legend={legend}
          value={said ? (said.ok ? "ok" : "not") : null}
          options={[
            { value: "ok", label: words.release.done },
            { value: "not", label: words.release.notDone },
          ]}
          onChange={(value) => onSay({ ok: value === "ok", by: null, why: said?.why ?? "" })}
        />
      )}
      {said?.ok === false && (
        <TextField label={words.release.why} value={said.why} onInput={(why) => onSay({ ...said, why })} />
      )}
    </div>
  );
}
