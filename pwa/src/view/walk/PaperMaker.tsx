/** The paper of a signed walk: made here on the phone, then shared or saved. */

import { useEffect, useState } from "preact/hooks";
import type { MadePaper, PaperSize } from "../../report/walk_paper";
import type { SignedWalk } from "../../report/walks";
import { documents } from "../words/documents";
import { SendFile } from "../bits/SendFile";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { usualPaper } from "../documents/papers";
import type { CarScreen } from "../screen";
import { walk as words } from "../words/walk";
import { paperOf } from "./paper";

const SIZES: PaperSize[] = ["a4", "letter"];

interface PaperMakerProps extends CarScreen {
  walk: SignedWalk;
  /** Made without a tap, in the usual size: the customer waits for it. */
  atOnce?: boolean;
}

export function PaperMaker({ state, setup, actions, walk, atOnce = false }: PaperMakerProps) {
  const { busy, problem, run } = usePending();
  const [made, setMade] = useState<MadePaper | null>(null);
  const make = (size: PaperSize) =>
    run(async () => {
      if (made) URL.revokeObjectURL(made.url);
      setMade(null);
      setMade(await actions.makeWalkPaper(paperOf(state.entries, setup, walk, size)));
    });
  useEffect(() => {
    if (atOnce) void make(usualPaper(setup.timezone));
  }, []);
  return (
    <div class="stack">
      <div class="row even">
        {SIZES.map((size) => (
          <button key={size} type="button" class="button" disabled={busy} onClick={() => make(size)}>
            {words.make(words.paperSizes[size])}
          </button>
        ))}
      </div>
      <div class="stack" role="status">
        {busy && <p>{words.making}</p>}
        {made && <p>{words.madePaper(made.pages, made.bytes)}</p>}
        {made && made.missing > 0 && <p class="warn">{words.paperMissing(made.missing)}</p>}
      </div>
      {made && (
        <SendFile file={made} about={documents.about(documents.name["hand-over"] ?? "", walk.car, setup.name)} />
      )}
      <ProblemLine text={problem} />
    </div>
  );
}
