/** Which documents a person may have, by the roles that the server asks for. */

import type { EventSetup, Role } from "../../kit/api";
import { LANGUAGES, type Language, language } from "../../kit/language";

/** In the order in which a weekend needs them. */
export const DOCUMENTS = [
  "job-sheet",
  "restart-sheet",
  "declaration",
  "parts-order",
  "hand-over",
  "record",
  "statement",
] as const;
export type DocumentName = (typeof DOCUMENTS)[number];

const FOR_THE_CREW: readonly DocumentName[] = ["declaration", "hand-over"];

/** Return the documents for these roles: who sits in the car alone gets no advice where the event forbids it. */
export function documentsFor(roles: Role[], setup: EventSetup): DocumentName[] {
  const isManager = roles.includes("manager");
  const isCrew = roles.every((role) => role === "driver" || role === "co-driver");
  const onRoad = isCrew && !setup.regulations.advice_on_road;
  return DOCUMENTS.filter((name) => (name === "statement" ? isManager : !onRoad || FOR_THE_CREW.includes(name)));
}

/**
 * Letter for events in the Americas, A4 everywhere else. By the event's time zone: many a phone in Europe speaks
 * American English.
 */
export function usualPaper(timezone: string): "a4" | "letter" {
  return /^(America|US|Canada)\/|^Pacific\/Honolulu$/.test(timezone) ? "letter" : "a4";
}

/** What the event says that its papers speak, else what this phone does. */
export function usualLanguage(setup: EventSetup): Language {
  return LANGUAGES.find((one) => one === setup.languages?.[0]) ?? language();
}
