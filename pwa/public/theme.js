/**
 * Puts the chosen theme on the page before the page is first painted, so that nothing flashes white at night. A plain
 * script that the browser waits for: the content policy allows no inline one, and modules run after the first paint.
 */
(() => {
  const KEY = "shuntbook.theme";
  /** Grounds of tokens.css, for the browser's own bars; tests/theme.test.ts holds them together. */
  /** @type {Record<string, string>} */
  const GROUNDS = { day: "#f3f5f6", night: "#0c0906", contrast: "#ffffff" };
  /** @type {Record<string, string>} */
  const SCHEMES = { day: "light", night: "dark", contrast: "light" };
  const page = document.documentElement;
  /** @type {HTMLMetaElement | null} */
  const scheme = document.querySelector("meta[name=color-scheme]");
  const bars = [...document.querySelectorAll("meta[name=theme-color]")].map((one) => {
    const bar = /** @type {HTMLMetaElement} */ (one);
    return { bar, own: bar.content };
  });

  function kept() {
    try {
      return localStorage.getItem(KEY);
    } catch (error) {
      // A browser that keeps nothing for this page refuses the store itself: the phone's own choice then.
      if (error instanceof DOMException) return null;
      throw error;
    }
  }

  function show() {
    const theme = kept();
    const known = theme !== null && Object.hasOwn(GROUNDS, theme);
    if (known) page.dataset.theme = theme;
    else delete page.dataset.theme;
    if (scheme) scheme.content = known ? SCHEMES[theme] : "light dark";
    for (const { bar, own } of bars) bar.content = known ? GROUNDS[theme] : own;
  }

  show();
  // From another tab, or from the picker, which says it in the same words.
  addEventListener("storage", (event) => {
    if (event.key === KEY || event.key === null) show();
  });
})();
