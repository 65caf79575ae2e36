/** The parts of a car that have a life, the most pressing first, with what happened to each and the form for a new one. */

import type { CarScreen } from "../screen";
import { lives as words } from "../words/lives";
import { LivesList } from "./LivesList";

export function LivesScreen(props: CarScreen) {
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <p class="soft">{words.about}</p>
      <LivesList {...props} />
    </div>
  );
}
