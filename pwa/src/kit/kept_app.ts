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
