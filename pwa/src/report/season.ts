/** What the events held teach, as this phone heard it. */

import type { Observed, Season, Spares } from "../kit/api";
import type { Heard } from "./held";

/** The server's answers, each with when it was heard; null for one that never came. */
export interface SeasonAnswers {
  season: Heard<Season> | null;
  observed: Heard<Observed> | null;
  spares: Heard<Spares> | null;
}

/** The event to pack for: timed km and cars. */
export interface SparesWish {
  km: number;
  cars: number;
}
