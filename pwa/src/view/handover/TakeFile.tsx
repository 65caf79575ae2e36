/** Takes a file from another phone or the server, and says what came or what is damaged. */

import { useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import type { BundleTaken } from "../../report/handed";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { handover as words } from "../words/handover";
import { Taken } from "./Taken";

export function TakeFile({ takeBundle }: Pick<Actions, "takeBundle">) {
  const { busy, problem, run } = usePending();
  const [taken, setTaken] = useState<BundleTaken | null>(null);
  const take = (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (file) run(async () => setTaken(await takeBundle(file)));
    input.value = "";
  };
  return (
    <section class="sheet" aria-labelledby="in-title">
      <h2 id="in-title">{words.in}</h2>
      <p>{words.inHow}</p>
      <label class="button file wide">
        <span>{busy ? words.taking : words.pick}</span>
        {/* No kind of file is asked for: some phones call a zip file by no name at all. */}
        <input type="file" disabled={busy} onChange={(event) => take(event.currentTarget)} />
      </label>
      <ProblemLine text={problem} />
      {taken && "taken" in taken && <Taken taken={taken.taken} />}
      <div role="alert" class="stack">
        {taken && "damaged" in taken && (
          <>
            <p class="warn">{words.damaged}</p>
            <ul class="bulleted soft">
              {taken.damaged.map((line) => (
                <li key={line} class="long">
                  {line}
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    </section>
  );
}
