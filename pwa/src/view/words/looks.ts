/** Words of the check lists. The checks themselves are the set-up's. */

import { worded } from "../../kit/language";

export const looks = worded("looks", {
  title: "Check lists",
  how: "What an inspector goes through at an inspection, by the kind of part. Common practice, and your team's own where it wrote one; the maker's instructions come first.",
  decide: "Team check only. Scrutineers and the event's regulations decide.",
  at: { air: "in the air, wheel on", off: "wheel off", ground: "on the ground" } as Record<string, string>,
  must: "must be OK",
  group: {
    brake: "Brakes",
    steering: "Steering",
    "wheel-hold": "Suspension and hubs",
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
