/** The script that puts the theme on before the first paint, run as the browser does. */

import { readFileSync } from "node:fs";
import { runInNewContext } from "node:vm";
import { expect, test } from "vitest";

const SCRIPT = readFileSync(new URL("../public/theme.js", import.meta.url), "utf8");
const TOKENS = readFileSync(new URL("../src/view/ui/tokens.css", import.meta.url), "utf8");
const LIGHT = "#f3f5f6";
const DARK = "#0d1216";

function opened(kept: () => string | null) {
  const page = { dataset: {} as Record<string, string> };
  const scheme = { content: "light dark" };
  const bars = [{ content: LIGHT }, { content: DARK }];
  const heard: ((event: { key: string | null }) => void)[] = [];
  runInNewContext(SCRIPT, {
    document: {
      documentElement: page,
      querySelector: (named: string) => (named.includes("color-scheme") ? scheme : null),
      querySelectorAll: (named: string) => (named.includes("theme-color") ? bars : []),
    },
    localStorage: { getItem: kept },
    addEventListener: (_: string, hear: (event: { key: string | null }) => void) => heard.push(hear),
    DOMException,
    Object,
  });
  const say = (key: string | null) => heard.forEach((hear) => void hear({ key }));
  const seen = () => [page.dataset.theme, scheme.content, ...bars.map((bar) => bar.content)];
  return { seen, say };
}

const ground = (theme: string) =>
  new RegExp(`data-theme="${theme}"\\][^}]*?--color-ground: (#[0-9a-f]{6})`).exec(TOKENS)?.[1];

test("nothing kept, or nothing known: the phone decides", () => {
  for (const kept of [null, "phone", "toString", "<b>"]) {
    expect(opened(() => kept).seen()).toEqual([undefined, "light dark", LIGHT, DARK]);
  }
});

test("a chosen theme is on the page at once, the browser's bars in its ground", () => {
  expect(opened(() => "night").seen()).toEqual(["night", "dark", ground("night"), ground("night")]);
  expect(opened(() => "contrast").seen()).toEqual(["contrast", "light", ground("contrast"), ground("contrast")]);
  expect(opened(() => "day").seen()).toEqual(["day", "light", LIGHT, LIGHT]);
  expect(TOKENS).toContain(`--color-ground: ${LIGHT}`);
  expect(TOKENS).toContain(`--color-ground: ${DARK}`);
});

test("a browser that refuses the store gets the phone's theme, and no error", () => {
  const refusing = () => {
    throw new DOMException("no", "SecurityError");
  };
  expect(opened(refusing).seen()[0]).toBeUndefined();
});

test("a choice made here or in another tab is shown; other keys are not heard", () => {
  let kept: string | null = null;
  const { seen, say } = opened(() => kept);
  kept = "night";
  say("shuntbook.round 2026 41");
  expect(seen()[0]).toBeUndefined();
  say("shuntbook.theme");
  expect(seen()[0]).toBe("night");
  kept = null;
  say(null);
  expect(seen()).toEqual([undefined, "light dark", LIGHT, DARK]);
});
