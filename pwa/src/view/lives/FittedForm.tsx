/** The form for a part that went in: its serial, whether it was rebuilt, from when its life counts. */

import type { Finish, FittedPart } from "../../flow/model";
import type { Life } from "../../kit/api";
import { dayIn } from "../../kit/time";
import { FormTitle } from "../bits/FormTitle";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { usePending } from "../bits/usePending";
import type { CarScreen } from "../screen";
import { Button } from "../ui/Button";
import { lives as words } from "../words/lives";

interface FormProps extends CarScreen {
  life: Life;
  name: string;
  onDone: () => void;
}

const OVER = ["finished", "accepted"];

export function FittedForm(props: FormProps) {
  const { state, setup, actions, life, name, onDone } = props;
  const { draft, change } = useDraft({ serial: "", rebuilt: false, since: "" });
  const open = state.queue?.answer.jobs.some((job) => job.job === life.job && !OVER.includes(job.state));
  const today = dayIn(setup.timezone, state.now);
  const late = draft.since !== "" && !(draft.since <= today && draft.since > "1900");
  const { busy, problem, run } = usePending(late ? words.badDay : null);
  const save = async () => {
    const { serial, rebuilt, since } = draft;
    const part: FittedPart = { serial: serial.trim(), rebuilt, since: since === "" ? null : since };
    await actions.partFitted(life.job, part, repairOf(props, part));
    onDone();
  };
  return (
    <form
      class="stack"
      onSubmit={(event) => {
        event.preventDefault();
        void run(save);
      }}
    >
      <FormTitle id={`fitted-${life.job}`} text={words.recordOf(name)} />
      {open && (
        <p class="strong">
          {words.open} <a href={`#/job/${life.job}`}>{words.toJob}</a>
        </p>
      )}
      <label>
        <span class="label">{words.serialField}</span>
        <input
          type="text"
          autocomplete="off"
          maxLength={200}
          value={draft.serial}
          onInput={(event) => change({ serial: event.currentTarget.value })}
        />
      </label>
      <label>
        <span class="label">{words.since}</span>
        <input
          type="date"
          class="day"
          max={today}
          value={draft.since}
          onInput={(event) => change({ since: event.currentTarget.value })}
        />
      </label>
      <label class="row">
        <input
          type="checkbox"
          checked={draft.rebuilt}
          onChange={(event) => change({ rebuilt: event.currentTarget.checked })}
        />
        {words.rebuilt}
      </label>
      {life.safety_critical && <p class="soft">{draft.since === "" ? words.inspected : words.notRepair}</p>}
      <ProblemLine text={problem} />
      <Button type="submit" kind="primary" busy={busy}>
        {words.save}
      </Button>
      <Button kind="text" onClick={onDone}>
        {words.cancel}
      </Button>
    </form>
  );
}

/** Work on a brake, cage or steering is recorded as the repair that it is, which an inspection follows. */
function repairOf({ life, state }: FormProps, part: FittedPart): Finish | null {
  if (!life.safety_critical || part.since !== null) return null;
  return {
    action: life.action ?? "replace",
    minutes: null,
    mechanics: 1,
    parts: life.parts.map(({ part: name, qty }) => ({ part: name, qty })),
    repairers: state.identity ? [state.identity.person] : [],
    temporary: false,
    said_at: null,
  };
}
