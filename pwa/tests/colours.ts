/** Colours as WCAG 2.2 measures them: its definitions of "relative luminance" and "contrast ratio". */

import { expect } from "vitest";

/** By their names without the two dashes: #rrggbb. */
export type Colours = Record<string, string>;

export const coloursIn = (text: string): Colours =>
  Object.fromEntries([...text.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6});/g)].map(([, name, value]) => [name, value]));

/** Red, green, blue from 0 to 1. */
export const channels = (colour: string) => [1, 3, 5].map((at) => Number.parseInt(colour.slice(at, at + 2), 16) / 255);
export const linear = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
export const of = (colours: Colours, name: string) => colours[name] ?? expect.fail(`no --${name}`);

export function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = channels(colour).map(linear);
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

export function contrast(one: number, other: number): number {
  return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
}
