/** The shipped letters: the whole licence goes out with them, and their file is what the style sheet says. */

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";

const read = (path: string) => readFileSync(new URL(path, import.meta.url));
const FONT = read("../src/view/ui/font/atkinson-hyperlegible-next.woff2");

test("the file is a WOFF2 font of at most 36 kB", () => {
  expect(FONT.subarray(0, 4).toString("latin1")).toBe("wOF2");
  expect(FONT.length).toBeLessThan(36_000);
});

test("its licence lies beside it, and goes out with the built app", () => {
  const licence = read("../src/view/ui/font/LICENSE").toString();
  expect(licence).toContain("SIL Open Font License, Version 1.1");
  expect(licence).toContain("Atkinson Hyperlegible Next Project Authors");
  expect(read("../public/licence-of-screen-font.txt").toString()).toBe(licence);
});

test("nothing waits for it, and it is not put in later", () => {
  const faces = read("../src/view/ui/font.css").toString().split("@font-face").slice(1);
  expect(faces.filter((face) => face.includes("url("))).toHaveLength(1);
  expect(faces.filter((face) => face.includes("url(") && face.includes("font-display: optional"))).toHaveLength(1);
});
