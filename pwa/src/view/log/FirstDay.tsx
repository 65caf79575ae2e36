/** The three cards of the first day, above the drawing, until they were read or skipped or a place was tapped; once on a phone. */

import type { AppState } from "../../flow/model";
import type { TourProps } from "../about/Tour";
import { lazy } from "../bits/lazy";
import { wasSaid } from "../bits/saidOnce";

const Tour = lazy<TourProps>(
  async () => (await import("../about/Tour")).Tour,
  () => null,
);

/** Say whether the cards are due: whoever has logged before, on whatever phone, knows how. */
export const isFirstDay = ({ entries, identity }: AppState): boolean =>
  !wasSaid("tour") && !entries.some(({ entry }) => entry.person === identity?.person);

export function FirstDay({ onEnd }: TourProps) {
  return (
    <div class="first-day">
      <Tour onEnd={onEnd} />
    </div>
  );
}
