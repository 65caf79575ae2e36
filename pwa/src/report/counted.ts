/** What counts of a car, kept by the list of all entries. */

import type { Entry, EventSetup } from "../kit/api";
import { bring, keptFor, keptUp } from "../kit/growing";
import { idOf, isSigned, ofCar, ofKind } from "./lists";
import { takesBack, withoutVoided } from "./voided";

const counted = keptFor((setup: EventSetup | null) =>
  keptUp<Entry, Entry[]>(
    (entries) => withoutVoided(entries, setup),
    (before, changes, entries, older) => {
      if (changes.some((one) => (one.was && !isSigned(one)) || one.now?.kind === "entry.voided")) return null;
      const voids = ofKind(entries, "entry.voided");
      if (before === older && voids.length === 0) return entries;
      const counts = ({ now }: { now?: Entry | undefined }) => now && !voids.some((by) => takesBack(by, now, setup));
      return bring(before, changes.filter(counts), idOf);
    },
  ),
);

/** Return those of a car that count, as `withoutVoided`; of the same list the same list, which nobody may change. */
export function countedOf(entries: Entry[], car: string, setup: EventSetup | null): Entry[] {
  return counted(setup)(ofCar(entries, car));
}
