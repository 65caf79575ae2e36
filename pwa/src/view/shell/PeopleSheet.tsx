/** Who uses this phone, over the screen that is open: one large button each, and the way to what the phone knows of oneself. */

import type { ScreenProps } from "../screen";
import { Sheet } from "../ui/Sheet";
import { Button } from "../ui/Button";
import { common } from "../words/common";
import { people as words } from "../words/people";
import { shell } from "../words/shell";
import { People } from "./People";

export function PeopleSheet({ state, actions, onDone }: ScreenProps & { onDone: () => void }) {
  return (
    <Sheet open title={words.title} closeLabel={common.close} onClose={onDone}>
      <People state={state} actions={actions} onDone={onDone} />
      {state.identity && (
        <Button href="#/me" kind="text" wide onFollow={onDone}>
          {shell.me(state.identity.name)}
        </Button>
      )}
    </Sheet>
  );
}
