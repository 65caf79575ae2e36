/** What a PIN looks like; by itself, so that the first screen need not load how one is kept. */

/** Say whether a text is a PIN; one that was chosen with an older app may be shorter, and goes on. */
export const isPin = (text: string): boolean => /^\d{6}$/.test(text);
