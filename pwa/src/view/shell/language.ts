/** Which language this phone speaks: the one chosen in Me, else the first of the browser's own that the app knows; its words are in place before the first screen. */

import { type Language, languageFor, speak } from "../../kit/language";

const KEY = "shuntbook.language";

/** Lay the words of this phone's language over the English ones. */
export async function speakHere(): Promise<void> {
  const language = languageFor(kept(), navigator.languages);
  if (language === "fr") await speakFrench();
  document.documentElement.lang = language;
}

async function speakFrench(): Promise<void> {
  const { french } = await import("../words/fr");
  speak("fr", french);
}

/** Keep a choice and load the page again, so that every word is read again; false where the browser keeps nothing. */
export function choose(language: Language): boolean {
  try {
    localStorage.setItem(KEY, language);
  } catch (error) {
    if (error instanceof DOMException) return false;
    throw error;
  }
  location.reload();
  return true;
}

// A browser that keeps nothing says so by an error; the engine tells the person.
function kept(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch (error) {
    if (error instanceof DOMException) return null;
    throw error;
  }
}
