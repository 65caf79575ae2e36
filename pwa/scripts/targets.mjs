/** The oldest browsers that the app is made for: the same as in docs/browsers.md and public/floor.js. */

/** By MDN's names. */
export const FLOOR = {
  chrome: 110,
  chrome_android: 110,
  firefox: 121,
  firefox_android: 121,
  safari: 16.4,
  safari_ios: 16.4,
};

/** What Vite is told. */
export const TARGETS = ["chrome110", "firefox121", "safari16.4", "ios16.4"];
