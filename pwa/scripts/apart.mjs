/** Which test files change what all of a thread share. */

import { readdirSync, readFileSync } from "node:fs";

const TESTS = new URL("../tests/", import.meta.url);

/** Stand-ins for modules and clocks, the language that is spoken, a document, what the page's window has. */
const SHARED = /\bvi\.|quick_pins|\bspeak\(|globalThis/;

/**
 * Return the test files that need a thread of their own, from the app's folder; components are drawn into a document.
 *
 * @returns {string[]}
 */
export function apart() {
  const names = readdirSync(TESTS, { recursive: true, encoding: "utf8" }).filter((one) => /\.test\.tsx?$/.test(one));
  const alone = names.filter((one) => one.endsWith("x") || SHARED.test(readFileSync(new URL(one, TESTS), "utf8")));
  return alone.map((one) => `tests/${one}`);
}
