/**
 * The tokens of the components against the bounds of docs/eyes.md: WCAG 2.2, success criteria 1.4.3 (text 4.5:1), 1.4.6
 * (text 7:1) and 1.4.11 (edges 3:1); the night's are the app's own, after Luria & Kobus (NSMRL 1036, 1984).
 */

import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { channels, type Colours, coloursIn, contrast, linear, luminance, of } from "./colours";

const UI = new URL("../src/view/ui/", import.meta.url);
const read = (name: string) => readFileSync(new URL(name, UI), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");
const TOKENS = read("tokens.css");
const SHEETS = readdirSync(UI)
  .filter((name) => name.endsWith(".css") && name !== "tokens.css" && name !== "font.css")
  .map((name) => [name, read(name)] as const);

/** The body of a rule, from an at-rule on; whatever it sets. */
function body(selector: string, within = ""): string {
  const from = TOKENS.indexOf(within);
  const at = TOKENS.indexOf(`${selector} {`, from);
  expect(from, within).toBeGreaterThan(-1);
  expect(at, selector).toBeGreaterThan(-1);
  return TOKENS.slice(at, TOKENS.indexOf("}", at));
}

/** Colours without "color-" in front. */
const block = (selector: string, within = ""): Colours =>
  Object.fromEntries(
    Object.entries(coloursIn(body(selector, within))).map(([name, value]) => [name.replace("color-", ""), value]),
  );

const PHONE = ":root:not([data-theme])";
const DARK = "@media screen and (prefers-color-scheme: dark)";
const MORE = "@media screen and (prefers-contrast: more) {";
const DARK_MORE = "@media screen and (prefers-contrast: more) and (prefers-color-scheme: dark)";
const day = block(":root");
const THEMES: Record<string, Colours> = {
  day,
  dark: { ...day, ...block(PHONE, DARK) },
  night: { ...day, ...block(':root[data-theme="night"]') },
  contrast: { ...day, ...block(':root[data-theme="contrast"]') },
  "phone, more contrast": { ...day, ...block(PHONE, MORE) },
  "phone, more contrast, dark": { ...day, ...block(PHONE, MORE), ...block(PHONE, DARK_MORE) },
};

const GROUNDS = ["ground", "sheet", "quiet", "tint"];
const TONES = ["hold", "must", "done"];
/** Text on its ground: everything that some component sets on something. */
const TEXT = [
  ...["ink", "soft", "act"].flatMap((text) => GROUNDS.map((ground) => `${text} on ${ground}`)),
  ...TONES.flatMap((tone) => [
    `${tone} on ground`,
    `${tone} on sheet`,
    `${tone} on ${tone}-tint`,
    `ink on ${tone}-tint`,
  ]),
  "on-act on act",
  "on-hold on hold-fill",
  "on-say on say",
  "act-on-say on say",
  "on-side on side",
  "on-side-chosen on side",
  "on-side-chosen on side-chosen",
];
/** Edges of controls, marks that mean something, and what shows the focus. */
const EDGES = [
  ...["ground", "sheet", "quiet"].map((ground) => `edge on ${ground}`),
  ...["act", ...TONES].flatMap((mark) => [`${mark} on ground`, `${mark} on sheet`]),
];

function below(theme: string, pairs: string[], least: number, measure = luminance): string[] {
  const colours = THEMES[theme] ?? {};
  return pairs.flatMap((pair) => {
    const [front = "", ground = ""] = pair.split(" on ");
    const found = contrast(measure(of(colours, front)), measure(of(colours, ground)));
    return found < least ? [`${pair}: ${found.toFixed(2)}`] : [];
  });
}

test.each(Object.keys(THEMES))("%s names every colour that the day names", (theme) => {
  const rules: Record<string, [string, string]> = {
    dark: [PHONE, DARK],
    night: [':root[data-theme="night"]', ""],
    contrast: [':root[data-theme="contrast"]', ""],
    "phone, more contrast": [PHONE, MORE],
    "phone, more contrast, dark": [PHONE, DARK_MORE],
  };
  const own = rules[theme] ? block(...rules[theme]) : day;
  expect(Object.keys(own).sort()).toEqual(Object.keys(day).sort());
});

describe.each(["day", "dark", "night"])("%s", (theme) => {
  test("text 4.5:1, edges 3:1", () => {
    expect(below(theme, TEXT, 4.5)).toEqual([]);
    expect(below(theme, EDGES, 3)).toEqual([]);
  });
});

describe.each(["contrast", "phone, more contrast", "phone, more contrast, dark"])("%s", (theme) => {
  test("text 7:1, edges and even lines 3:1", () => {
    expect(below(theme, TEXT, 7)).toEqual([]);
    expect(below(theme, [...EDGES, "line on sheet", "line on ground"], 3)).toEqual([]);
  });
});

test("high contrast is the same whether it is chosen here or asked for by the phone", () => {
  const all = (text: string) => [...text.matchAll(/--[\w-]+:[^;]+;/g)].map(([found]) => found);
  expect(all(body(PHONE, MORE))).toEqual(all(body(':root[data-theme="contrast"]')));
});

describe("night", () => {
  const night = THEMES.night ?? {};
  const LARGE = Object.keys(night).filter((name) => /^(ground|sheet|quiet|say|side)|tint$|fill$|chosen$/.test(name));
  const grounds = LARGE.filter((name) => !name.startsWith("on-"));

  test("grounds are at most 0.03 bright, a filled button 0.3, anything 0.5 (white is 1)", () => {
    const over = (names: string[], most: number) => names.filter((name) => luminance(of(night, name)) > most);
    expect(grounds.length).toBeGreaterThan(9);
    expect(over([...grounds, "on-act"], 0.03)).toEqual([]);
    expect(over(["act"], 0.3)).toEqual([]);
    expect(over(Object.keys(night), 0.5)).toEqual([]);
  });

  test("every colour is warm and none is red: red ≥ green ≥ blue, hues from 25° (orange) to 60° (yellow)", () => {
    const wrong = Object.entries(night).filter(([, colour]) => {
      const [red = 0, green = 0, blue = 0] = channels(colour);
      const hue = (60 * (green - blue)) / (red - blue);
      return red < green || green < blue || hue < 25 || hue > 60;
    });
    expect(wrong).toEqual([]);
  });

  test("text stays readable by its red light alone, as through a red filter", () => {
    expect(below("night", TEXT, 4.5, (colour) => linear(channels(colour)[0] ?? 0))).toEqual([]);
  });
});

test("components name no colour of their own, and no size of letters but the tokens'", () => {
  const found = SHEETS.flatMap(([name, text]) =>
    [...text.matchAll(/#[0-9a-f]{3,8}\b|(?<![\w-])(?:white|black|rgba?|hsla?|oklch)(?![\w-])/g)].map(
      ([one]) => `${name}: ${one}`,
    ),
  );
  expect(found).toEqual([]);
  const sizes = SHEETS.flatMap(([name, text]) =>
    [...text.matchAll(/font-size:\s*([^;]+);/g)].map(([, size = ""]) => `${name}: ${size}`),
  ).filter((one) => !/: (?:var\(--text-\w+\)|inherit)$/.test(one));
  // A plate is a plate, and a count stands in a corner of an icon.
  expect(sizes).toEqual(["bars.css: 1.25rem", "tabs.css: 0.6875rem"]);
});

test("every token that a component asks for is there", () => {
  const given = new Set([...TOKENS.matchAll(/(--[\w-]+):/g)].map(([, name]) => name));
  const asked = SHEETS.flatMap(([name, text]) =>
    // With a fallback it is something that a screen may set.
    [...text.matchAll(/var\((--[\w-]+)\)/g)].map(([, token = ""]) => `${name}: ${token}`),
  );
  expect(asked.length).toBeGreaterThan(200);
  expect(asked.filter((one) => !given.has(one.split(": ")[1]))).toEqual([]);
});

test("every pair that one rule sets is in the list above", () => {
  const set = SHEETS.flatMap(([, text]) => [...text.matchAll(/\{([^{}]*)\}/g)]).flatMap(([, rule = ""]) => {
    const front = /(?:^|[\s;])color:\s*var\(--color-([\w-]+)\)/.exec(rule)?.[1];
    const ground = /background(?:-color)?:\s*var\(--color-([\w-]+)\)/.exec(rule)?.[1];
    return front && ground ? [`${front} on ${ground}`] : [];
  });
  expect(set.length).toBeGreaterThan(20);
  expect(set.filter((pair) => !TEXT.includes(pair))).toEqual([]);
});

test("what is filled keeps its letters where the system forces its colours", () => {
  const rules = SHEETS.flatMap(([, text]) => [...text.matchAll(/([^{}]+)\{([^{}]*)\}/g)]);
  const kept = rules
    .filter(([, , rule = ""]) => rule.includes("forced-color-adjust: none"))
    .map(([, names = ""]) => names);
  const filled = rules.filter(
    ([, , rule = ""]) => /[\s;]color: var\(--color-on-/.test(rule) && /background: var/.test(rule),
  );
  const names = filled.map(([, name = ""]) => name.trim()).filter((name) => name !== ".ui-side");
  expect(names.length).toBeGreaterThan(5);
  expect(names.filter((name) => !kept.some((list) => list.includes(name)))).toEqual([]);
});

test("nothing moves but where nobody asked for less motion, and then for 150 ms at the most", () => {
  const moving = /[\s;](?:transition|animation|scroll-behavior)[\w-]*:|@keyframes/;
  const calm = SHEETS.map(([name, text]) => {
    const rest = text.split(/@media \(prefers-reduced-motion: no-preference\) \{/).map((part, at) => {
      if (at === 0) return part;
      // What is left behind the brace that ends the block.
      let depth = 1;
      const end = [...part].findIndex((sign) => {
        depth += Number(sign === "{") - Number(sign === "}");
        return depth === 0;
      });
      return part.slice(end);
    });
    return [name, rest.join("")] as const;
  });
  expect(calm.filter(([, text]) => moving.test(text)).map(([name]) => name)).toEqual([]);
  expect(SHEETS.filter(([, text]) => moving.test(text)).length).toBeGreaterThan(2);
  const times = SHEETS.flatMap(([, text]) => [...text.matchAll(/(?:transition|animation):([^;]+);/g)]).map(
    ([, one]) => one,
  );
  expect(times.filter((one = "") => /\b[\d.]+m?s\b/.test(one))).toEqual([]);
  expect(Number(/--motion: ([\d.]+)s;/.exec(TOKENS)?.[1])).toBeLessThanOrEqual(0.15);
});

test("every theme but the day is for screens alone, so that all print in black on white", () => {
  expect(TOKENS.match(/@media (?!screen)/g)).toBeNull();
  expect(TOKENS.replace(/@media screen[\s\S]*?\{[\s\S]*?\}\s*\}/g, "").match(/data-theme/g)).toBeNull();
});
