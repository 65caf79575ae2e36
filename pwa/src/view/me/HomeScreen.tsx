/** How to put the app on the home screen, and why; nothing where it is there or can't be. */

import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import type { ScreenProps } from "../screen";
import { me } from "../words/me";

const words = me.home;

export function HomeScreen({ state, actions }: ScreenProps) {
  const { busy, problem, run } = usePending();
  if (state.install === null) return null;
  return (
    <section class="sheet" aria-labelledby="home-title">
      <h2 id="home-title">{words.title}</h2>
      <p>{state.install === "offer" ? words.offerWhy : words.byHandWhy}</p>
      {state.install === "offer" ? (
        <button type="button" class="button" disabled={busy} onClick={() => run(() => actions.install())}>
          {words.offer}
        </button>
      ) : (
        <ol class="bulleted">
          {words.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      )}
      <ProblemLine text={problem} />
    </section>
  );
}
