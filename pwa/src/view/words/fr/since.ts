/** Depuis combien de temps. */

import type { Words } from "../../../kit/language";
import type { Since } from "../../../kit/time";

export const since: Words<Since> = {
  now: "à l'instant",
  minutes: (n) => `il y a ${n} min`,
  hours: (n) => `il y a ${n} h`,
  days: (n) => `il y a ${n} jours`,
};
