/** The theme chosen on this phone; public/theme.js puts it on the page. */

export const THEMES = ["phone", "day", "night", "contrast"] as const;
export type Theme = (typeof THEMES)[number];

const KEY = "shuntbook.theme";

/** Return what the page shows now: "phone" where nobody chose, or the store was refused. */
export function shownTheme(): Theme {
  const shown = document.documentElement.dataset.theme;
  return THEMES.find((theme) => theme === shown) ?? "phone";
}

/** Keep a theme for this phone and show it; returns whether the phone could keep it. */
export function chooseTheme(theme: Theme): boolean {
  try {
    if (theme === "phone") localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, theme);
  } catch (error) {
    if (error instanceof DOMException) return false;
    throw error;
  }
  dispatchEvent(new StorageEvent("storage", { key: KEY }));
  return true;
}
