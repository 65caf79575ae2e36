/** What is newer than the oldest browsers of docs/browsers.md is found in built files; and the page that they get. */

import { readFileSync } from "node:fs";
import { runInNewContext } from "node:vm";
import { expect, test } from "vitest";
import { lateInScript, lateInStyle } from "../scripts/floor.mjs";
import { TARGETS } from "../scripts/targets.mjs";

const read = (path: string) => readFileSync(new URL(path, import.meta.url), "utf8");
const late = (code: string) => [...lateInScript(code).keys()];
const plainer = (css: string) => [...lateInStyle(css).keys()];

test("methods, constructors and globals that came after the floor are found", () => {
  expect(late("const all = AbortSignal.any([a, b])")).toEqual(["AbortSignal.any"]);
  expect(late("const { promise } = Promise.withResolvers()")).toEqual(["Promise.withResolvers"]);
  expect(late("Object.groupBy(list, (one) => one.kind)")).toEqual(["Object.groupBy"]);
  expect(late("await Array.fromAsync(source())")).toEqual(["Array.fromAsync"]);
  expect(late("left.isSubsetOf(right)")).toEqual([".isSubsetOf()"]);
  expect(late("new Temporal.PlainDate(2026, 6, 13)")).toContain("Temporal");
  expect(late("globalThis.scheduler?.yield()")).toContain("globalThis.scheduler");
  expect(lateInScript("AbortSignal.any([])").get("AbortSignal.any")).toContain("safari_ios");
});

test("what the floor knows is let through, and names of the code's own", () => {
  expect(late("[3, 1].toSorted(); AbortSignal.timeout(9); new OffscreenCanvas(1, 1); structuredClone({})")).toEqual([]);
  expect(late("Object.hasOwn(a, 'b'); [1].at(-1); [1].findLast(Boolean)")).toEqual([]);
  expect(late("const Temporal = own(); const made = { groupBy: 1 }; made.groupBy")).toEqual([]);
});

test("syntax that came after the floor is found", () => {
  expect(() => late("const a = /[\\p{L}--[a-z]]/v")).toThrow(SyntaxError);
  expect(() => late('import data from "./a.json" with { type: "json" }')).toThrow(SyntaxError);
  expect(late("class A { #b = 1; static { } has(c) { return #b in c } }; await 0")).toEqual([]);
});

test("styles that came after the floor are found, unless asked for with @supports", () => {
  expect(plainer("h1 { text-wrap: balance }")).toEqual(["text-wrap", "text-wrap: balance"]);
  expect(plainer("a { color: color-mix(in srgb, red, blue) }")).toContain("color-mix()");
  expect(plainer("a { & b { color: red } }")).toContain("nesting");
  expect(plainer("@starting-style { a { opacity: 0 } }")).toContain("@starting-style");
  expect(plainer("@supports (text-wrap: balance) { h1 { text-wrap: balance } }")).toEqual([]);
  expect(plainer("main { min-height: 100dvh; inset: 0 } a:has(b) { gap: 1px }")).toEqual([]);
});

const FLOOR = read("../public/floor.js");

/** Runs the page for older browsers in one that has all but some; returns what it put in the app's place. */
function opened(lacks: string[]) {
  const placed: { page: Fake; app: unknown }[] = [];
  const app = { parentNode: { replaceChild: (page: Fake, old: unknown) => placed.push({ page, app: old }) } };
  const scope: Record<string, unknown> = {
    document: { getElementById: () => app, createElement: (kind: string) => new Fake(kind) },
    AbortSignal: Object.assign(() => {}, { timeout() {} }),
    OffscreenCanvas() {},
    indexedDB: {},
    CSS: { supports: () => !lacks.includes("dvh") },
  };
  for (const one of lacks) delete scope[one];
  const before = lacks.includes("toSorted") ? "delete Array.prototype.toSorted; delete Object.hasOwn;" : "";
  runInNewContext(before + FLOOR, scope);
  return placed;
}

class Fake {
  lang = "";
  textContent = "";
  className = "";
  children: Fake[] = [];
  constructor(readonly kind: string) {}
  appendChild(child: Fake) {
    this.children.push(child);
  }
}

test("an older browser gets words in both languages in the app's place, a newer one nothing", () => {
  expect(opened([])).toEqual([]);
  const [said] = opened(["OffscreenCanvas", "toSorted", "dvh"]);
  expect(said?.page.children.map((one) => one.lang)).toEqual(["en", "fr"]);
  for (const part of said?.page.children ?? []) {
    const [title, needs, missing] = part.children.map((one) => one.textContent);
    expect(title).toMatch(/Shuntbook/);
    expect(needs).toMatch(/iOS 16\.4.*Firefox 121.*Chromium 110/);
    expect(missing).toMatch(/Array\.prototype\.toSorted, Object\.hasOwn, OffscreenCanvas, CSS dvh$/);
  }
  for (const name of ["AbortSignal", "indexedDB", "CSS"]) expect(opened([name]).length).toBe(1);
});

test("the page for older browsers is written in their language, and loaded before the app", () => {
  expect(() => lateInScript(FLOOR, 5, "script")).not.toThrow();
  expect(() => lateInScript("const newer = () => 1", 5, "script")).toThrow(SyntaxError);
  const html = read("../index.html");
  expect(html.indexOf("/floor.js")).toBeGreaterThan(html.indexOf('id="app"'));
  expect(html.indexOf("/floor.js")).toBeLessThan(html.indexOf('type="module"'));
});

test("one floor: what Vite is told is what README, docs and that page say", () => {
  expect(TARGETS).toEqual(["chrome110", "firefox121", "safari16.4", "ios16.4"]);
  for (const text of [read("../../README.md"), read("../../docs/browsers.md"), FLOOR]) {
    expect(text).toMatch(/16\.4.*Firefox 121.*Chromium 110/s);
  }
});
