/** Which screens each role is led to from *More*. Pure. */

import type { Role } from "../../kit/api";

const SEAT = ["log", "round", "reports", "incidents", "briefing", "arrival", "readings", "retired"];
const CREW = ["queue", "service", "plan"];
const CREW_TOO = ["board", "log", "round", "reports", "incidents", "briefing", "arrival"];
const WORKS = ["readings", "retired", "lives", "documents", "passes"];
const OFFICE = ["costs", "statement", "season", "walk", "setup", "aside"];
const PHONE = ["codes", "handover", "looks", "me", "about"];

/** What of an event decides which screens there are. `school`: drivers take turns; `several`: cars share a crew. */
export interface EventKind {
  school: boolean;
  several: boolean;
}

/** Return the groups in order, without those that have nothing for the roles. */
export function groupsFor(roles: Role[], { school, several }: EventKind): { group: string; screens: string[] }[] {
  const works = roles.some((one) => one !== "driver" && one !== "co-driver");
  const crew = [...CREW, ...(several ? ["team"] : []), ...CREW_TOO, ...WORKS];
  const car = [...(works ? crew : ["service", ...SEAT]), ...(school ? ["turn"] : [])];
  return [
    { group: "work", screens: car },
    ...(roles.includes("manager") ? [{ group: "office", screens: OFFICE }] : []),
    { group: "phone", screens: PHONE },
  ];
}
