/** Finds parts by what somebody types of them. */

import type { EventSetup } from "../kit/api";

type Part = EventSetup["parts"][number];

/** Accents and capitals are not typed in gloves. */
const plain = (text: string) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/**
 * Return the parts whose number or description has each of the words typed; those in which a word begins with the first
 * of them come first, else in the order given. Nothing typed, nothing found.
 */
export function partsFound(parts: readonly Part[], typed: string): Part[] {
  const asked = plain(typed).split(/\s+/).filter(Boolean);
  const [first] = asked;
  if (first === undefined) return [];
  const known = parts.map((part) => ({ part, text: plain(`${part.part} ${part.description}`) }));
  const found = known.filter(({ text }) => asked.every((word) => text.includes(word)));
  const begins = ({ text }: { text: string }) => text.split(/[\s,-]+/).some((word) => word.startsWith(first));
  return [...found.filter(begins), ...found.filter((one) => !begins(one))].map(({ part }) => part);
}
