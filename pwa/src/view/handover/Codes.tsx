/** One code after the other, large, black on white whatever the theme: a camera reads them in any order. */

import { useEffect, useState } from "preact/hooks";
import type { Code } from "../../report/handed";
import { codes as words } from "../words/handover";

/** Long enough for several looks of the other phone's camera, and below three changes a second (WCAG 2.3.1). */
const SHOWN_MS = 700;

export function Codes({ codes }: { codes: Code[] }) {
  const [place, setPlace] = useState(0);
  const [runs, setRuns] = useState(true);
  const next = () => setPlace((now) => (now + 1) % codes.length);
  useEffect(() => {
    if (!runs || codes.length < 2) return;
    const timer = setInterval(next, SHOWN_MS);
    return () => clearInterval(timer);
  }, [runs, codes]);
  const code = codes[place];
  if (!code) return null;
  return (
    <figure class="code-figure">
      <Drawing code={code} label={words.code(place + 1, codes.length)} />
      <figcaption>{words.place(place + 1, codes.length)}</figcaption>
      {codes.length > 1 && (
        <div class="row even">
          <button type="button" class="button" aria-pressed={!runs} onClick={() => setRuns(!runs)}>
            {runs ? words.stop : words.goOn}
          </button>
          <button type="button" class="button" onClick={next}>
            {words.next}
          </button>
        </div>
      )}
    </figure>
  );
}

function Drawing({ code, label }: { code: Code; label: string }) {
  const size = code.length;
  return (
    <svg class="code" viewBox={`0 0 ${size} ${size}`} role="img" aria-label={label} shape-rendering="crispEdges">
      <rect class="code-light" width={size} height={size} />
      <path class="code-dark" d={pathOf(code)} />
    </svg>
  );
}

/** A stroke for each run of dark modules in a row. */
function pathOf(code: Code): string {
  return code.flatMap((row, y) => runsOf(row).map(([x, length]) => `M${x} ${y}h${length}v1h-${length}z`)).join("");
}

function runsOf(row: boolean[]): [place: number, length: number][] {
  const runs: [number, number][] = [];
  row.forEach((dark, x) => {
    const last = runs.at(-1);
    if (dark && last && last[0] + last[1] === x) last[1]++;
    else if (dark) runs.push([x, 1]);
  });
  return runs;
}
