/** What of the parts with a life is due or nearly: one row that leads to their list; nothing where nothing presses. */

import type { CarScreen } from "../screen";
import { List, Row } from "../ui/Row";
import { lives as words } from "../words/lives";

export function LivesPressing({ state, setup }: CarScreen) {
  const all = state.lives?.answer.lives ?? [];
  const count = (wanted: string) => all.filter((one) => one.state === wanted).length;
  const [due, nearly] = [count("due"), count("nearly")];
  // A set-up that gave lives and does not any more leaves an old answer behind.
  if (due + nearly === 0 || (setup.lives ?? []).length === 0) return null;
  const said = [due > 0 ? words.due(due) : "", nearly > 0 ? words.nearly(nearly) : ""].filter((one) => one !== "");
  return (
    <List>
      <Row title={words.title} meta={said.join(" · ")} href="#/lives" />
    </List>
  );
}
