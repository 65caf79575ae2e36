/** How much of the app itself is kept on this phone: what the service worker, the page and its screens say of it. */

/**
 * `kept`: the page came from this phone. `ready`: it has been kept since the page was opened. `never`: this browser
 * or address can't. `of` is null while not even the list of files has come.
 */
export type Keeping =
  | { state: "kept" | "ready" | "never" }
  | { state: "keeping" | "retrying"; kept: number; of: number | null };

/** What the service worker tells its pages while it is installed. */
export interface Kept {
  kept: number;
  of: number;
}

/** How much of what follows in the background is kept; `failed`: the last try ended early. Told by the service worker. */
export interface Following extends Kept {
  follows: true;
  failed: boolean;
}

/** What a page asks its service worker for. */
export const KEEP_FOLLOWING = "keep-following";

/**
 * By the names that Vite gives: what makes papers, its fonts, what reads workbooks, the set-up, the season, and the words of another
 * language, which a phone that speaks it has loaded by then. Larger than many screens, and seldom wanted.
 */
const FOLLOWS = /^assets\/((walk_paper|SetupScreen|SeasonScreen|sheets|fr)-.*\.js|web-worker-.*\.js|.*\.ttf)$/;

/** Say whether a file of the app is kept only after the app is ready to work without signal. `url`: below the app's own address. */
export const follows = (url: string): boolean => FOLLOWS.test(url);
