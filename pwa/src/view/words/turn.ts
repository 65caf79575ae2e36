/** Words of a school day: the look between two turns. */

import { worded } from "../../kit/language";

export const turn = worded("turn", {
  title: "Between two turns",
  how: (session: string) => `After ${session}: who drives next, and one tap for each place.`,
  asBefore: "As before",
  isNew: "Something new",
  missing: (n: number) => (n === 1 ? "1 place is not checked yet." : `${n} places are not checked yet.`),
  save: (session: string) => `Save: nothing new on ${session}`,
  saving: "Keeping it …",
  sayNew: (zone: string) => `Say what is new, beginning with ${zone}`,
});
