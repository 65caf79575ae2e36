/** The broken part that a repair took out: kept under a tag on a shelf, until the bill is paid. */

import type { Entry, EventSetup, Job } from "../../kit/api";
import type { KeptPart } from "../../flow/model";
import { isKind } from "../../report/local_entry";
import { mayVoid } from "../../report/voided";
import { FormTitle } from "../bits/FormTitle";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { useOpen } from "../bits/useOpen";
import { usePending } from "../bits/usePending";
import { personName, timeOf } from "../labels";
import { partName } from "../queue/partName";
import type { CarScreen } from "../screen";
import { job as words } from "../words/job";
import { keptOf, partsFitted } from "./history";

interface KeptProps extends CarScreen {
  job: Job;
  valid: Entry[];
}

/** Shown after a repair: what is kept, and the form to keep it. */
export function Kept(props: KeptProps) {
  const { job, valid } = props;
  const form = useOpen();
  const isRepaired = valid.some((entry) => isKind(entry, "job.finished") && entry.subject === job.job);
  const kept = keptOf(valid, job.job);
  if (!isRepaired && kept.length === 0) return null;
  return (
    <>
      {kept.length > 0 && <KeptList {...props} kept={kept} />}
      <button type="button" class="button" aria-expanded={form.isOpen} onClick={form.toggle}>
        {words.kept.add}
      </button>
      {form.isOpen && <KeepForm {...props} onDone={form.close} />}
    </>
  );
}

function KeptList({ state, setup, actions, kept }: KeptProps & { kept: ReturnType<typeof keptOf> }) {
  const { busy, problem, run } = usePending();
  const person = state.identity?.person ?? "";
  return (
    <section class="sheet" aria-labelledby="kept-title">
      <h3 id="kept-title">{words.kept.title}</h3>
      <ul class="stack">
        {kept.map((entry) => (
          <li key={entry.id} class="row">
            <span>
              <span class="strong">{words.kept.at(entry.data.tag, entry.data.shelf ?? "")}</span>
              {entry.data.part && ` · ${partName(setup, entry.data.part)}`}
              <span class="soft">
                {" "}
                · {personName(setup, entry.person)} {timeOf(setup, entry.at)}
              </span>
            </span>
            {mayVoid(entry, person, setup) && (
              <button
                type="button"
                class="button"
                disabled={busy}
                onClick={() => run(() => actions.voidEntry(entry.id, words.undoReason))}
              >
                {words.kept.undo(entry.data.tag)}
              </button>
            )}
          </li>
        ))}
      </ul>
      <ProblemLine text={problem} />
    </section>
  );
}

function KeepForm({ setup, actions, job, valid, onDone }: KeptProps & { onDone: () => void }) {
  const parts = partsFitted(valid, job.job);
  const { draft: said, change } = useDraft<KeptPart>({ tag: "", shelf: "", part: parts[0] ?? null });
  const tag = said.tag.trim();
  const { busy, problem, run } = usePending(tag === "" ? words.kept.needTag : null);
  const save = async () => {
    await actions.retainPart(job.job, { ...said, tag, shelf: said.shelf.trim() });
    onDone();
  };
  return (
    <section class="sheet" aria-labelledby="keep-title">
      <FormTitle id="keep-title" text={words.kept.title} />
      <p class="soft">{words.kept.note}</p>
      <label>
        <span class="label">{words.kept.tag}</span>
        <span class="soft">{words.kept.tagHint}</span>
        <input
          type="text"
          value={said.tag}
          maxLength={60}
          onInput={(event) => change({ tag: event.currentTarget.value })}
        />
      </label>
      <label>
        <span class="label">{words.kept.shelf}</span>
        <input
          type="text"
          value={said.shelf}
          maxLength={200}
          onInput={(event) => change({ shelf: event.currentTarget.value })}
        />
      </label>
      {parts.length > 0 && <PartField setup={setup} parts={parts} said={said} onChange={change} />}
      <ProblemLine text={problem} />
      <button type="button" class="button main" disabled={busy} onClick={() => run(save)}>
        {words.kept.save}
      </button>
    </section>
  );
}

interface PartFieldProps {
  setup: EventSetup;
  parts: string[];
  said: KeptPart;
  onChange: (some: Partial<KeptPart>) => void;
}

function PartField({ setup, parts, said, onChange }: PartFieldProps) {
  return (
    <label>
      <span class="label">{words.kept.part}</span>
      <select value={said.part ?? ""} onChange={(event) => onChange({ part: event.currentTarget.value || null })}>
        {parts.map((part) => (
          <option key={part} value={part}>
            {partName(setup, part)}
          </option>
        ))}
        <option value="">{words.kept.partOther}</option>
      </select>
    </label>
  );
}
