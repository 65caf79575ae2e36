/** What an address of the app means. */

import type { Role } from "../kit/api";
import type { Route } from "./model";

/** Every screen by its name in the address; `view/screens.ts` says what shows each. */
const SCREENS = [
  "log",
  "reports",
  "report",
  "queue",
  "job",
  "service",
  "costs",
  "me",
  "aside",
  "handover",
  "codes",
  "plan",
  "briefing",
  "walk",
  "readings",
  "lives",
  "documents",
  "statement",
  "season",
  "setup",
  "incidents",
  "round",
  "arrival",
  "turn",
  "about",
  "board",
  "looks",
  "place",
  "more",
  "passes",
  "retired",
  "team",
] as const;

export type ScreenName = (typeof SCREENS)[number];

/** Return where an address (its `#…` part) leads; one that says nothing leads to what the roles need first. */
export function routeOf(hash: string, roles: Role[]): Route {
  const [first = "", ...rest] = hash.replace(/^#?\/?/, "").split("/");
  const screen = SCREENS.find((one) => one === first);
  if (!screen) return { screen: homeOf(roles), subject: null };
  return { screen, subject: rest.length > 0 && rest[0] ? rest.map(decoded).join("/") : null };
}

/** Say whether a screen, by its address or name, shows which parts are due by their life. */
export const showsLives = (hash: string): boolean => /^#?\/?(lives|readings|season|queue|job|place)\b/.test(hash);

/** Return the cars beside the chosen one that a board's address names: `#/board/42/43`. */
export const carsBeside = ({ screen, subject }: Route): string[] =>
  screen === "board" && subject !== null ? subject.split("/") : [];

/** Return the code of a join link's address, or null. */
export function joinCodeOf(hash: string): string | null {
  const code = /^#\/join\/([^/]+)$/.exec(hash)?.[1];
  return code ? decoded(code) : null;
}

/** The crew logs; everybody else works off the queue. */
function homeOf(roles: Role[]): ScreenName {
  return roles.some((role) => role !== "driver" && role !== "co-driver") ? "queue" : "log";
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch (error) {
    if (error instanceof URIError) return part;
    throw error;
  }
}
