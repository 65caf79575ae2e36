/** What every part of a statement needs beside its own piece of it. */

import type { EventSetup } from "../../kit/api";
import type { Actions } from "../../flow/model";

export interface BillProps {
  setup: EventSetup;
  actions: Actions;
}
