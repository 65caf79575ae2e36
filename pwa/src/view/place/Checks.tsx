/** The checks of a place, by where they are made. None is answered by itself; from Not OK the finding is filed at once. */

import type { Answer, PlaceCheck } from "../../report/looks";
import { ORDER } from "../../report/looks";
import { Segmented } from "../ui/Choice";
import { TextField } from "../ui/Field";
import { SectionHeader } from "../ui/Row";
import { looks } from "../words/looks";
import { places as words } from "../words/places";
import { FileFinding } from "./FileFinding";
import type { FormProps } from "./InspectForm";
import type { Draft } from "./keptAnswers";

type Said = "ok" | "not" | "skip";

const OK_OF: Record<Said, boolean | null> = { ok: true, not: false, skip: null };
const saidOf = ({ ok }: Answer): Said => (ok === null ? "skip" : ok ? "ok" : "not");

interface ChecksProps extends FormProps {
  checks: PlaceCheck[];
  draft: Draft;
  onChange: (some: Partial<Draft>) => void;
}

export function Checks(props: ChecksProps) {
  const { checks } = props;
  return (
    <>
      {ORDER.map((at) => {
        const here = checks.filter((one) => one.at === at);
        if (here.length === 0) return null;
        return (
          <section key={at} class="place-checks">
            <SectionHeader title={words.at[at ?? "none"]} meta={words.checks(here.length)} />
            {here.map((one) => (
              <Check key={one.check} {...props} one={one} />
            ))}
          </section>
        );
      })}
    </>
  );
}

function Check(props: ChecksProps & { one: PlaceCheck }) {
  const { one, draft, onChange } = props;
  const answer = draft.answers[one.check];
  const named = looks.named(one.check);
  const say = (said: Answer) => onChange({ answers: { ...draft.answers, [one.check]: said } });
  const said = answer ? saidOf(answer) : null;
  return (
    <div class={said ? `place-check is-${said}` : "place-check"}>
      <Segmented<Said>
        legend={one.must_for.length > 0 ? words.must(named) : named}
        value={said}
        options={[
          { value: "ok", label: words.ok, ...(said === "ok" ? { icon: "check" as const } : {}) },
          { value: "not", label: words.notOk, ...(said === "not" ? { icon: "close" as const } : {}) },
          { value: "skip", label: words.notDone },
        ]}
        onChange={(value) => say({ ok: OK_OF[value], why: answer?.why ?? "" })}
      />
      {answer?.ok === null && (
        <TextField label={words.why} value={answer.why} onInput={(why) => say({ ok: null, why })} />
      )}
      {answer?.ok === false && (
        <FileFinding
          {...props}
          filed={draft.filed[one.check] ?? null}
          onFiled={(what) => onChange({ filed: { ...draft.filed, [one.check]: what } })}
        />
      )}
    </div>
  );
}
