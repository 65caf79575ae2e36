/** Which screens each role is led to from *More*. Pure. */

import type { Role } from "../../kit/api";

const SEAT = ["log", "round", "reports", "incidents", "briefing", "arrival", "readings", "retired"];
const CREW = ["queue", "service", "plan", "board", "log", "round", "reports", "incidents", "briefing", "arrival"];
const WORKS = ["readings", "retired", "lives", "documents", "passes"];
const OFFICE = ["costs", "statement", "season", "walk", "setup", "aside"];
const PHONE = ["codes", "handover", "looks", "me", "about"];

/** Return the groups in order, without those that have nothing for the roles. `school`: drivers take turns. */
export function groupsFor(roles: Role[], school: boolean): { group: string; screens: string[] }[] {
  const works = roles.some((one) => one !== "driver" && one !== "co-driver");
  const car = [...(works ? [...CREW, ...WORKS] : ["service", ...SEAT]), ...(school ? ["turn"] : [])];
  return [
    { group: "work", screens: car },
    ...(roles.includes("manager") ? [{ group: "office", screens: OFFICE }] : []),
    { group: "phone", screens: PHONE },
  ];
}
