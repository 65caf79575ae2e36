/** The screens that each role's row of tabs and side bar lead to. Pure. */

import type { Role } from "../../kit/api";
import type { Destination } from "../ui/Tabs";
import { common } from "../words/common";
import { shell } from "../words/shell";

type Screen = "log" | "reports" | "queue" | "service" | "costs" | "walk" | "documents" | "season" | "setup" | "more";

/** More than four and *More* leave no room for a word on a phone. */
const MOST = 4;

/** The screens in the order of the trade: who repairs first, then who logs, then who pays. */
function ofRoles(roles: Role[]): Screen[] {
  const crew = roles.some((one) => one === "mechanic" || one === "inspector");
  const seat = roles.some((one) => one === "driver" || one === "co-driver");
  const manager = roles.includes("manager");
  if (!crew && !manager) return ["log", "reports", "service"];
  const all: Screen[] = ["queue", "service"];
  if (crew || seat) all.push("log");
  if (manager) all.push("costs");
  if (seat) all.push("reports");
  return all;
}

/** Return the tabs of a phone: four at the most, and *More* for all else. */
export const tabsOf = (roles: Role[]): Destination[] =>
  [...ofRoles(roles).slice(0, MOST), "more" as const].map(destination);

/** Return what the side bar has room for. */
export function sideOf(roles: Role[]): Destination[] {
  const office: Screen[] = roles.includes("manager")
    ? ["queue", "service", "log", "reports", "costs", "walk", "documents", "season", "setup"]
    : [...ofRoles(roles), "reports", "documents"];
  return [...new Set([...office, "more" as const])].map(destination);
}

const destination = (screen: Screen): Destination => ({
  id: screen,
  label: screen === "walk" ? shell.handOver : (common.navLabel[screen] ?? screen),
  icon: screen,
  href: `#/${screen}`,
});

/** Return which of the destinations is shown: the screen itself, the one it was opened from, else *More*. */
export function currentOf(all: readonly Destination[], screen: string, home: string): string {
  const ids = all.map((one) => one.id);
  return ids.includes(screen) ? screen : ids.includes(home) ? home : "more";
}
