/** Words of the check lists. The checks themselves are the set-up's. */

import { worded } from "../../kit/language";

export const looks = worded("looks", {
  title: "Check lists",
  how: "What an inspector goes through at a look, by the kind of part. Common practice, and your team's own where it wrote one; the maker's instructions come first.",
  decide: "The event's scrutineers and rules decide.",
  group: {
    brake: "Brakes",
    steering: "Steering",
    "wheel-hold": "What holds the wheels",
    restraint: "Belts and seats",
    fuel: "Fuel",
    fire: "Fire system and cut-off",
    throttle: "Throttle",
    cage: "Safety cage",
    other: "Everything else",
  } as Record<string, string>,
  edit: "Change these lists",
  link: "Check lists",
  /** A check as it is said: the package's own in the language spoken, a team's as it wrote it. */
  named: (check: string) => check,
});
