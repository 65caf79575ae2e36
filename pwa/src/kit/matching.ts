/** Finds what somebody types some letters of. */

/** Return a text without accents and capitals, which nobody types in gloves. */
export const plain = (text: string) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

/** Return the words of what was typed. */
export const wordsOf = (typed: string) => plain(typed).split(/\s+/).filter(Boolean);

/** Say whether a text has each of the words typed, in whatever order; any text has nothing. */
export function hasWords(text: string, typed: string): boolean {
  const within = plain(text);
  return wordsOf(typed).every((word) => within.includes(word));
}
