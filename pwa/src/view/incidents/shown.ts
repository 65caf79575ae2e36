/** Which hits a person sees, and a hit in a few words. Pure. */

import type { CarMap } from "../../kit/api";
import type { AppState } from "../../flow/model";
import type { Hit } from "../../report/incidents";
import type { EffectiveReport } from "../../report/effective";
import { whatSaid, whereSaid } from "../log/said";

/**
 * Return the hits to show: not those that are withdrawn whole, nor what was there at a hand-over.
 *
 * On the road, where the event forbids advice, only one's own reports are shown.
 */
export function hitsShown(hits: Hit[], state: AppState): Hit[] {
  const own = ({ mine, versions }: EffectiveReport) =>
    mine || versions.some((version) => version.person === state.identity?.person);
  return hits
    .map((hit) => ({ ...hit, told: state.advice ? hit.told : hit.told.filter(own) }))
    .filter(({ told }) => told.some((report) => !report.withdrawn && report.body.where !== "hand-over"));
}

/** The hit's name, else what its first report says. */
export function titleOf(hit: Hit, map: CarMap): string {
  const first = hit.told.find((report) => !report.withdrawn) ?? hit.told[0];
  return hit.grouping?.data.title || (first ? whatSaid(first.body, map) : "");
}

/** "SS4, km 6.1; SS5": each place once, as the reports say. */
export function placesOf(told: EffectiveReport[]): string {
  return [...new Set(told.filter((one) => !one.withdrawn).map(({ body }) => whereSaid(body)))].join("; ");
}

/** The usual words that stand in a text "Fence, Gate, of a farm". */
export const wordsIn = (text: string, usual: string[]): string[] => {
  const parts = text.split(", ");
  return usual.filter((word) => parts.includes(word));
};

/** Put one of the usual words into such a text, or take it out. */
export const toggled = (text: string, word: string, on: boolean): string => {
  const parts = text.split(", ").filter((part) => part !== "" && part !== word);
  return (on ? [...parts, word] : parts).join(", ");
};
