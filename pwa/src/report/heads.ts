/** Which versions stand of all reports, kept by the list of entries. */

import type { Entry } from "../kit/api";
import { grouped } from "../kit/grouped";
import { keptUp } from "../kit/growing";
import { isSigned, ofKind } from "./lists";
import { headsOf, isVersion, type Version } from "./versions";

/** Return the heads of every report among entries of one event, withdrawals left out. Nobody changes a list of entries. */
export const headsIn: (entries: Entry[]) => readonly Version[] = keptUp<Entry, Version[]>(
  findHeads,
  (before, changes, entries) => {
    const heads = [...before];
    for (const change of changes) {
      const { was, now } = change;
      if (isSigned(change)) {
        const place = heads.lastIndexOf(was as Version);
        if (place >= 0) heads[place] = now as Version;
        continue;
      }
      if (was && isVersion(was)) return null;
      if (!now || !isVersion(now)) continue;
      if (!isNewest(now, heads.at(-1), entries)) return null;
      heads.push(now);
    }
    return heads;
  },
);

/** Say whether this begins a report and comes after all others of its car, the last: what is a head besides stays one. */
function isNewest(entry: Entry, last: Version | undefined, entries: Entry[]): entry is Version {
  if (entry.kind !== "report.filed" || entry.subject !== entry.id || !last) return false;
  const others = [...ofKind(entries, "report.amended"), ...ofKind(entries, "report.withdrawn")];
  return last.car === entry.car && last.id < entry.id && !others.some((one) => one.subject === entry.subject);
}

function findHeads(entries: Entry[]): Version[] {
  const ofCars = grouped(entries.filter(isVersion), (entry) => entry.car).values();
  const ofReports = [...ofCars].flatMap((own) => [...grouped(own, (entry) => entry.subject).values()]);
  return ofReports.flatMap(headsOf).filter((head) => head.kind !== "report.withdrawn");
}
