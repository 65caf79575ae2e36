/** What the events held teach, as this phone heard it. */

import type { Observed, Season, Spares } from "../kit/api";
import type { Cached } from "./local_entry";

/** The server's answers, each with when it was heard; null for one that never came. */
export interface SeasonAnswers {
  season: Cached<Season> | null;
  observed: Cached<Observed> | null;
  spares: Cached<Spares> | null;
}

/** The event to pack for: timed km and cars. */
export interface SparesWish {
  km: number;
  cars: number;
}
