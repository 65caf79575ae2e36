/** The server's last answers on what the season teaches. Loaded when they are first shown. */

import type { Observed, Season, Spares } from "../kit/api";
import type { SeasonAnswers } from "../report/season";
import { heard } from "./answers";
import type { Db } from "./db";

/** Names of answers. */
export const SEASON_KEY = "season";
export const observedKey = (event: string) => `observed ${JSON.stringify(event)}`;
export const sparesKey = (event: string) => `spares ${JSON.stringify(event)}`;

/** Return what was heard of all events, of an event's rate table, and of what to carry to it. */
export async function seasonHere(db: Db, event: string): Promise<SeasonAnswers> {
  return {
    season: await heard<Season>(db, SEASON_KEY),
    observed: await heard<Observed>(db, observedKey(event)),
    spares: await heard<Spares>(db, sparesKey(event)),
  };
}
