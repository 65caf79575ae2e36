/** The paper of a walk, set without a browser: sizes, pages, and that a photo that is not here is said. */

import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { speak } from "../src/kit/language";
import { walkSheet } from "../src/paper/walk_sheet";
import type { PaperSize } from "../src/report/walk_paper";
import { paperOf } from "../src/view/walk/paper";
import { french } from "../src/view/words/fr";
import { entry, heldAll, setup } from "./making";

const font = (name: string) => new Uint8Array(readFileSync(new URL(`../src/paper/fonts/${name}.ttf`, import.meta.url)));
const fonts = { regular: font("regular"), bold: font("bold") };
const sha = "a".repeat(64);

const mark = entry("report.filed", { zone: "roof", where: "hand-over", note: "dull" }, { id: "r" });
const walk = entry("handover.signed", {
  walk: "out",
  marks: ["r"],
  odometer_km: "18342",
  photos: [
    { view: "front", photo: sha },
    { view: "roof", why_none: "Too dark" },
  ],
  signed: [{ side: "team", name: "Vera", how: "on-screen" }],
});

test("the words of a paper come from the walk alone", () => {
  const paper = paperOf(heldAll(mark, walk), setup(), walk as never, "a4");
  expect(paper.photos.views).toHaveLength(18);
  expect(paper.photos.views[0]).toMatchObject({ photo: sha, before: null });
  expect(paper.photos.views[8]?.why_none).toBe("No photo: Too dark");
  expect(paper.signed.signers[0]?.how).toBe("Name typed, nothing drawn");
  expect(paper.tables[0]?.rows[0]).toEqual(["Odometer, km", "18,342 km"]);
  expect(paper.marks[0]?.zones[0]?.marks[0]?.text).toContain("dull");
});

test("a return stands beside the walk out before it", () => {
  const back = entry("handover.signed", { walk: "return", odometer_km: 18500 });
  const paper = paperOf(heldAll(mark, walk, back), setup(), back as never, "a4");
  expect(paper.photos.views[0]?.before?.photo).toBe(sha);
  expect(paper.tables[0]?.rows[0]).toEqual(["Odometer, km", "18,500 km (was 18,342 km)"]);
  expect(paper.marks.map((one) => one.title)).toEqual(["New marks", "Marks that were there at the hand-over"]);
});

test.each<[PaperSize, string]>([
  ["a4", "[0 0 595.28 841.89]"],
  ["letter", "[0 0 612 792]"],
])("%s is as large as it says, tagged, with its letters inside", async (size, box) => {
  const paper = paperOf(heldAll(mark, walk), setup(), walk as never, size);
  const { bytes, pages } = await walkSheet(paper, new Map(), new Date(0), fonts);
  const text = new TextDecoder("latin1").decode(bytes);
  expect(text.startsWith("%PDF-1.7")).toBe(true);
  expect(text.split(`/MediaBox ${box}`).length - 1).toBe(pages);
  expect(text).toContain("/Marked true");
  expect(text).toContain("/FontFile2");
  // ISO 14289-1: the file says what it is (5), and what the heads of its tables are heads of (7.5).
  expect(text).toContain("<pdfuaid:part>1</pdfuaid:part>");
  expect(text.split("/S /TH").length).toBe(text.split("/Scope /Row").length);
  expect(text).not.toContain("/BaseFont /Helvetica");
});

test("in French it says so, with its days, numbers and colons", async () => {
  speak("fr", french);
  const paper = paperOf(heldAll(mark, walk), setup(), walk as never, "a4");
  expect(paper.lang).toBe("fr");
  expect(paper.facts.find(([label]) => label === "Quand")?.[1]).toBe("16 mai 2026, 13:00");
  expect(paper.tables[0]?.rows[0]).toEqual(["Compteur, km", "18\u00a0342 km"]);
  expect(paper.labelled("Pour l'équipe", "Vera")).toBe("Pour l'équipe\u00a0: Vera");
  const { bytes } = await walkSheet(paper, new Map(), new Date(0), fonts);
  expect(new TextDecoder("latin1").decode(bytes)).toContain("/Lang (fr)");
});
