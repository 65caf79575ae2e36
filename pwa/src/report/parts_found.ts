/** Finds parts by what somebody types of them. */

import type { EventSetup } from "../kit/api";
import { hasWords, plain, wordsOf } from "../kit/matching";

type Part = EventSetup["parts"][number];

const textOf = ({ part, description }: Part) => `${part} ${description}`;

/**
 * Return the parts whose number or description has each of the words typed; those in which a word begins with the first
 * of them come first, else in the order given. Nothing typed, nothing found.
 */
export function partsFound(parts: readonly Part[], typed: string): Part[] {
  const [first] = wordsOf(typed);
  if (first === undefined) return [];
  const found = parts.filter((part) => hasWords(textOf(part), typed));
  const words = (part: Part) => plain(textOf(part)).split(/[\s,-]+/);
  const begins = (part: Part) => words(part).some((word) => word.startsWith(first));
  return [...found.filter(begins), ...found.filter((part) => !begins(part))];
}
