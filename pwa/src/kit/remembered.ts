/** Remembers the last answer of a function that is asked the same again and again, as while a screen is drawn. */

/** Return `work` remembering its last answer: asked with the very same values, it gives the very same answer. */
export function remembered<Asked extends unknown[], Answer>(
  work: (...asked: Asked) => Answer,
): (...asked: Asked) => Answer {
  let last: { asked: Asked; answer: Answer } | null = null;
  return (...asked) => {
    const is_same = last?.asked.length === asked.length && asked.every((one, at) => Object.is(one, last?.asked[at]));
    if (!last || !is_same) last = { asked, answer: work(...asked) };
    return last.answer;
  };
}
