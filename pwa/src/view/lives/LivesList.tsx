/** The list of parts with a life; `costs`: with what renewing each costs. */

import type { Life } from "../../kit/api";
import { decimal } from "../../kit/language";
import { money } from "../../kit/money";
import { useOpen } from "../bits/useOpen";
import { conditionLabel, dayText, heardAt, personName, zoneLabel } from "../labels";
import type { CarScreen } from "../screen";
import { Button } from "../ui/Button";
import { lives as words } from "../words/lives";
import { tasks } from "../words/plan";
import { FittedForm } from "./FittedForm";

type ListProps = CarScreen & { costs?: boolean };

export function LivesList(props: ListProps) {
  const { state, setup } = props;
  if ((setup.lives ?? []).length === 0) return <p>{words.none}</p>;
  if (!state.lives) return <p>{words.notHere}</p>;
  return (
    <>
      <p class="soft">{words.heard(heardAt(setup, state.lives.heard_at, state.now))}</p>
      {state.lives.answer.lives.map((life) => (
        <OneLife key={life.job} {...props} life={life} currency={state.lives?.answer.currency ?? ""} />
      ))}
    </>
  );
}

type OneProps = ListProps & { life: Life; currency: string };

const PRESSING = ["due", "nearly", "not-known"];

function OneLife(props: OneProps) {
  const { life, setup, currency, costs } = props;
  const form = useOpen();
  const name = nameOf(props);
  const must = life.must_do && life.state === "due" ? ` · ${words.mustDo}` : "";
  return (
    <section class="sheet stack" aria-label={name}>
      <div>
        <h2>{name}</h2>
        <p class={life.state === "due" ? "warn" : PRESSING.includes(life.state) ? "strong" : "soft"}>
          {words.state[life.state]}
          {must}
        </p>
      </div>
      {life.limits.map((limit) => (
        <p key={limit.of}>{limitOf(limit, life.began === null)}</p>
      ))}
      <p class="soft">{beganOf(life, setup)}</p>
      {life.happened.length > 0 && <Story happened={life.happened} />}
      {costs && <p>{life.cost === null ? words.noRow : words.cost(money(life.cost, currency))}</p>}
      {!costs && !form.isOpen && (
        <Button onClick={form.toggle} label={words.recordOf(name)} expanded={false}>
          {words.record}
        </Button>
      )}
      {form.isOpen && <FittedForm {...props} name={name} onDone={form.close} />}
    </section>
  );
}

function Story({ happened }: { happened: Life["happened"] }) {
  return (
    <div>
      <h3>{words.story}</h3>
      <ul>
        {happened.map((one) => (
          <li key={`${one.entry} ${one.says}`}>
            {one.what === "found"
              ? words.found(conditionLabel(one.says), one.stage, dayOf(one.day), one.event_name)
              : words.done(tasks.named(one.says), dayOf(one.day), one.event_name)}
          </li>
        ))}
      </ul>
    </div>
  );
}

/** "Floor guards, under the middle". */
export const nameOf = ({ life, setup }: Pick<OneProps, "life" | "setup">): string =>
  `${life.label}, ${zoneLabel(setup.car_map, life.zone).toLowerCase()}`;

/** "48.5 of 60 stage km, 69 by the end of this event". */
function limitOf(limit: Life["limits"][number], atLeast: boolean): string {
  const unit = words.unit[limit.of];
  if (limit.used === null || limit.by_end === null) return words.notKnown(figure(limit.limit), unit);
  const said = words.used(figure(limit.used), figure(limit.limit), unit, atLeast);
  return limit.by_end === limit.used ? said : `${said}, ${words.byEnd(figure(limit.by_end))}`;
}

const figure = (value: number): string => decimal(value, Number.isInteger(value) ? 0 : 1);

function beganOf({ began, serial }: Life, setup: CarScreen["setup"]): string {
  const serials = serial === "" ? [] : [words.serial(serial)];
  if (began === null) return [...serials, words.notBegan].join(". ");
  const how = began.rebuilt ? words.began.rebuilt : words.began[began.how];
  return [...serials, `${how} ${dayOf(began.day)}`, personName(setup, began.person)].join(" · ");
}

/** "31 May 2027" of a day that has no time in it. */
const dayOf = (day: string | null): string => (day === null ? "–" : dayText(day));
