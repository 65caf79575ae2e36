/** Makes the file, then offers it: two taps, since a phone's sharing must follow a tap at once. */

import { useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import type { MadeBundle } from "../../report/handed";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { handover as words } from "../words/handover";

export function GiveFile({ makeBundle }: Pick<Actions, "makeBundle">) {
  const { busy, problem, run } = usePending();
  const [made, setMade] = useState<MadeBundle | null>(null);
  const make = () =>
    run(async () => {
      if (made) URL.revokeObjectURL(made.url);
      setMade(await makeBundle());
    });
  return (
    <section class="sheet" aria-labelledby="out-title">
      <h2 id="out-title">{words.out}</h2>
      <p>{words.outHow}</p>
      <button type="button" class="button wide" disabled={busy} onClick={make}>
        {busy ? words.making : words.make}
      </button>
      <ProblemLine text={problem} />
      <div aria-live="polite" class="stack">
        {made && <p>{words.made(made.entries, made.photos, made.bytes)}</p>}
      </div>
      {made?.share && (
        <button type="button" class="button main wide" onClick={() => run(made.share ?? (async () => {}))}>
          {words.share}
        </button>
      )}
      {made && (
        <a class={made.share ? "button wide" : "button main wide"} href={made.url} download={made.name}>
          {words.save}
        </a>
      )}
    </section>
  );
}
