/** What a PIN looks like; by itself, so that the first screen need not load how one is kept. */

/** Say whether a text is a PIN. */
export const isPin = (text: string): boolean => /^\d{4,6}$/.test(text);
