/**
 * The palettes against WCAG 2.2 (W3C Recommendation, 5 October 2023): success criteria 1.4.3 (text 4.5:1), 1.4.6 (text
 * 7:1) and 1.4.11 (edges 3:1), by its definitions of "relative luminance" and "contrast ratio". The night's bounds are the
 * app's own, after Luria & Kobus (NSMRL 1036, 1984): dim, and nothing that is told by red, which vanishes under red light.
 */

import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { channels, type Colours, coloursIn, contrast, linear, luminance, of } from "./colours";

const VIEW = new URL("../src/view/", import.meta.url);
const css = (name: string) => readFileSync(new URL(name, VIEW), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");
const PALETTE = css("style/palette.css");
const TOKENS = css("ui/tokens.css");
const OTHERS = readdirSync(VIEW, { recursive: true, encoding: "utf8" })
  // The components have tokens of their own, and a test of their own: ui_tokens.test.ts.
  .filter((name) => name.endsWith(".css") && !name.endsWith("palette.css") && !name.startsWith("ui/"))
  .map((name) => [name, css(name)] as const);

/** What a block of both sheets sets over the day's colours. `within`: its at-rule, none for the base. */
function block(selector: string, within = ""): Colours {
  return { ...blockOf(TOKENS, selector, within, true), ...blockOf(PALETTE, selector, within, false) };
}

/** `demanded`: it is an error where the sheet has no such block. */
function blockOf(sheet: string, selector: string, within: string, demanded: boolean): Colours {
  const from = within ? sheet.indexOf(within) : 0;
  const at = from < 0 ? -1 : sheet.indexOf(`${selector} {`, from);
  if (at < 0 && !demanded) return {};
  expect(at, `${within} ${selector}`).toBeGreaterThan(-1);
  return coloursIn(sheet.slice(at, sheet.indexOf("}", at)));
}

const ALIASES = [...PALETTE.matchAll(/--([\w-]+):\s*var\(--(color-[\w-]+)\);/g)].map(
  ([, name = "", token = ""]) => [name, token] as const,
);

/** The colours under the names that the screens use. */
function named(colours: Colours): Colours {
  const own = Object.entries(colours).filter(([name]) => !name.startsWith("color-"));
  const taken = ALIASES.map(([name, token]) => [name, of(colours, token)] as const);
  return Object.fromEntries([...own, ...taken]);
}

/** What the screens call a token that a rule names itself. */
const calledHere = (name: string) => ALIASES.findLast(([, token]) => token === name)?.[0] ?? name;

const PHONE = ":root:not([data-theme])";
const base = block(":root");
const MORE = { ...base, ...block(PHONE, "@media screen and (prefers-contrast: more) {") };
const DARK_MORE = "@media screen and (prefers-contrast: more) and (prefers-color-scheme: dark)";
const THEMES: Record<string, Colours> = {
  day: named(base),
  dark: named({ ...base, ...block(PHONE, "@media screen and (prefers-color-scheme: dark)") }),
  night: named({ ...base, ...block(':root[data-theme="night"]') }),
  contrast: named({ ...base, ...block(':root[data-theme="contrast"]') }),
  "phone, more contrast": named(MORE),
  "phone, more contrast, dark": named({ ...MORE, ...block(PHONE, DARK_MORE) }),
};

/** Text on its ground: everything that some screen sets on something. */
const TEXT = [
  ...["ink", "soft", "act", "warn", "must"].flatMap((text) => [`${text} on ground`, `${text} on sheet`]),
  "ink on tint",
  "ink on must-tint",
  "ink on warn-tint",
  "soft on tint",
  "act on must-tint",
  "act on tint",
  "on-act on act",
  "on-hold on hold",
  "on-say on say",
  "warn on warn-tint",
  "must on must-tint",
  "sheet on must",
  "done on done-tint",
  "on-paper on paper",
];
/** Edges of controls, and of marks that mean something. */
const EDGES = [
  "edge on ground",
  "edge on sheet",
  "act on ground",
  "act on sheet",
  "hold-edge on sheet",
  "hold-edge on ground",
  "must on sheet",
  "warn on sheet",
];

function below(theme: string, pairs: string[], least: number, measure = luminance): string[] {
  return pairs.flatMap((pair) => {
    const [front = "", ground = ""] = pair.split(" on ");
    const colours = THEMES[theme] ?? {};
    const found = contrast(measure(of(colours, front)), measure(of(colours, ground)));
    return found < least ? [`${pair}: ${found.toFixed(2)}`] : [];
  });
}

test("the formula gives the standard's own ends: black on white 21, a colour on itself 1, #767676 just 4.5", () => {
  expect(contrast(luminance("#000000"), luminance("#ffffff"))).toBe(21);
  expect(contrast(luminance("#123456"), luminance("#123456"))).toBe(1);
  expect(contrast(luminance("#767676"), luminance("#ffffff"))).toBeCloseTo(4.54, 2);
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
    expect(below(theme, [...EDGES, "line on sheet", "line on ground", "paper-line on paper"], 3)).toEqual([]);
  });
});

test("high contrast is the same whether it is chosen here or asked for by the phone", () => {
  expect(THEMES["phone, more contrast"]).toEqual(THEMES.contrast);
});

describe("night", () => {
  const night = THEMES.night ?? {};
  const large = ["ground", "sheet", "tint", "hold", "warn-tint", "must-tint", "say", "paper", "on-act"];

  test("grounds are at most 0.03 bright, a filled button 0.3, anything 0.5 (white is 1)", () => {
    const over = (names: string[], most: number) => names.filter((name) => luminance(of(night, name)) > most);
    expect(over(large, 0.03)).toEqual([]);
    expect(over(["act"], 0.3)).toEqual([]);
    expect(over(Object.keys(night), 0.5)).toEqual([]);
  });

  test("every colour is warm: red ≥ green ≥ blue", () => {
    const cold = Object.entries(night).filter(([, colour]) => {
      const [red = 0, green = 0, blue = 0] = channels(colour);
      return red < green || green < blue;
    });
    expect(cold).toEqual([]);
  });

  test("no colour is red: hues lie from 25° (orange) to 60° (yellow)", () => {
    // Of a warm colour the hue of HSL is 60° × (green − blue) / (red − blue).
    const hues = Object.entries(night).map(([name, colour]) => {
      const [red = 0, green = 0, blue = 0] = channels(colour);
      return [name, (60 * (green - blue)) / (red - blue)] as const;
    });
    expect(hues.filter(([, hue]) => hue < 25 || hue > 60)).toEqual([]);
  });

  test("text stays readable by its red light alone, as through a red filter", () => {
    expect(below("night", TEXT, 4.5, (colour) => linear(channels(colour)[0] ?? 0))).toEqual([]);
  });
});

test("other style sheets name no colour of their own but for codes, the camera and ink on paper", () => {
  const own = OTHERS.flatMap(([name, text]) => {
    const onScreen = text.split("@media print")[0] ?? "";
    return [...onScreen.matchAll(/(?:#[0-9a-f]{3,8}\b|\b(?:white|black|rgba?\(.*?\)))\s*;/g)].map(
      ([found]) => `${name}: ${found}`,
    );
  });
  expect(own).toEqual(["handover/handover.css: #fff;", "handover/handover.css: #000;", "handover/handover.css: #000;"]);
});

test("every pair that one rule sets is in the list above", () => {
  const set = OTHERS.flatMap(([, text]) => [...text.matchAll(/\{([^{}]*)\}/g)]).flatMap(([, rule = ""]) => {
    const front = /(?:^|[\s;])color:\s*var\(--([\w-]+)\)/.exec(rule)?.[1];
    const ground = /background(?:-color)?:\s*var\(--([\w-]+)\)/.exec(rule)?.[1];
    return front && ground ? [`${calledHere(front)} on ${calledHere(ground)}`] : [];
  });
  expect(set.length).toBeGreaterThan(10);
  expect(set.filter((pair) => !TEXT.includes(pair))).toEqual([]);
});

/** Chromium lays the system's ground behind each line of text, whatever ground the page asked for. */
test("what is filled keeps its letters where the system forces its colours", () => {
  const rules = OTHERS.flatMap(([, text]) => [...text.matchAll(/([^{}]+)\{([^{}]*)\}/g)]);
  const kept = rules
    .filter(([, , rule = ""]) => rule.includes("forced-color-adjust: none"))
    .map(([, names = ""]) => names);
  const filled = rules.filter(([, , rule = ""]) => /[\s;]color: var\(--on-/.test(rule) && /background: var/.test(rule));
  // Ink on paper is the system's own pair there.
  const names = filled.map(([, name = ""]) => name.trim()).filter((name) => name !== ".paper");
  expect(names.length).toBeGreaterThan(4);
  expect(names.filter((name) => !kept.some((list) => list.includes(name)))).toEqual([]);
});

test("nothing moves but where nobody asked for less motion", () => {
  const moving = /[\s;](?:transition|animation|scroll-behavior)[\w-]*:|@keyframes/;
  const calm = OTHERS.map(([name, text]) => [
    name,
    text.replace(/@media \(prefers-reduced-motion: no-preference\) \{(?:[^{}]*\{[^{}]*\})*\s*\}/g, ""),
  ]);
  expect(calm.filter(([, text = ""]) => moving.test(text)).map(([name]) => name)).toEqual([]);
  expect(OTHERS.some(([, text]) => moving.test(text))).toBe(true);
  const code = readdirSync(VIEW, { recursive: true, encoding: "utf8" }).filter((name) => /\.tsx?$/.test(name));
  const smooth = code.filter((name) =>
    /behavior: ?"smooth"|\.animate\(/.test(readFileSync(new URL(name, VIEW), "utf8")),
  );
  expect(smooth).toEqual([]);
});

test("every theme but the day is for screens alone, so that all print in black on white", () => {
  expect(PALETTE.match(/@media (?!screen)/g)).toBeNull();
  expect(PALETTE.replace(/@media screen[\s\S]*?\{[\s\S]*?\}\s*\}/g, "").match(/data-theme/g)).toBeNull();
});
