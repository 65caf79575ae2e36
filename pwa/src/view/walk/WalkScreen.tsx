/** The hand-over walk: begin one, go on with one, or see those that were signed. */

import { useState } from "preact/hooks";
import { ProblemLine } from "../bits/Problem";
import type { CarScreen } from "../screen";
import { walk as words } from "../words/walk";
import { Begin } from "./Begin";
import { Signed } from "./Signed";
import { Steps } from "./Steps";
import { useWalk } from "./useWalk";
import "./walk.css";

export function WalkScreen(props: CarScreen) {
  const walk = useWalk(props.actions);
  const [signed, setSigned] = useState<string | null>(null);
  const { draft } = walk;
  const done = (id: string) => {
    walk.end();
    setSigned(id);
    window.scrollTo(0, 0);
  };
  return (
    <div class="incar stack walk">
      <h1>{draft ? words.under(draft.walk) : words.title}</h1>
      <ProblemLine text={walk.problem} />
      {draft === undefined && <p role="status">{words.reading}</p>}
      {draft && <Steps {...props} walk={walk} draft={draft} onSigned={done} />}
      {draft === null && signed !== null && <Signed {...props} id={signed} onBack={() => setSigned(null)} />}
      {draft === null && signed === null && <Begin {...props} walk={walk} />}
    </div>
  );
}
