/** The paper of a walk and what its last step lists: the parts and terms that the server's paper has, in its order. */

import { readFileSync } from "node:fs";
import { expect, test, vi } from "vitest";
import { walkSheet } from "../src/paper/walk_sheet";
import { beginWalk, type WalkDraft } from "../src/report/walk_draft";
import { paperOf } from "../src/view/walk/paper";
import { signedLines } from "../src/view/walk/signing";
import { entry, heldAll, setup } from "./making";

interface Shared {
  parts: string[];
  terms: Record<"out" | "return", string[]>;
}

const FILE = new URL("../../schemas/vectors/walk_paper.json", import.meta.url);
const shared = JSON.parse(readFileSync(FILE, "utf8")) as Shared;

const { sections } = vi.hoisted(() => ({ sections: [] as string[] }));
vi.mock("../src/paper/sheet", () => ({
  Sheet: class {
    title() {}
    rows() {}
    text() {}
    part() {}
    pictures() {}
    section = (text: string) => sections.push(text);
    bytes = () => ({ bytes: new Uint8Array(), pages: 1 });
  },
}));

const whole = {
  fluids: [{ fluid: "brake-fluid", level: "full" as const }],
  kit: [{ item: "jack", aboard: true }],
  note: "Rain.",
};
const fonts = { regular: new Uint8Array(), bold: new Uint8Array() };

test.each(["out", "return"] as const)(
  "the walk %s has the server's parts in its order, and its terms",
  async (kind) => {
    const out = entry("handover.signed", { walk: "out", ...whole });
    const walk = kind === "out" ? out : entry("handover.signed", { walk: "return", ...whole });
    const paper = paperOf(heldAll(out, walk), setup(), walk as never, "a4");
    expect(paper.terms).toEqual(shared.terms[kind]);
    sections.length = 0;
    await walkSheet(paper, new Map(), new Date(0), fonts);
    // A return has two lists of marks: the new ones, and those of the hand-over.
    const parts = sections.map((title) => (/marks/i.test(title) ? "marks" : title.toLowerCase()));
    expect([...new Set(parts)]).toEqual(shared.parts);
  },
);

test("the last step lists what is signed, in the paper's order, and what was not read or looked at", () => {
  const begun = beginWalk({ walk: "out", agreement: null, team: "Vera", kit: ["jack", "triangle", "map"] });
  const mark = { key: "1", zone: "roof", findings: [], photos: [], note: "" };
  const draft: WalkDraft = {
    ...begun,
    marks: [mark, { ...mark, key: "2" }, { ...mark, key: "3", zone: "front-left" }],
    odometer_km: 18342,
    tread: { "front-left": 5.5 },
    kit: [
      { item: "jack", aboard: true },
      { item: "triangle", aboard: false },
      { item: "map", aboard: null },
    ],
    photos: { front: { photo: "a".repeat(64), why_none: "" }, roof: { photo: null, why_none: "Too dark" } },
  };
  const lines = Object.fromEntries(signedLines(draft, setup()));
  expect(lines["Existing marks"]).toMatch(/^roof 2, front-left$|^Roof 2, Front left$/i);
  expect(lines).toMatchObject({
    "Odometer, km": "18342 km",
    Fuel: "Not read",
    "Tyre tread, mm": "1 of 4",
    Kit: "1 aboard; missing: triangle; 1 not checked",
    Photos: "1 of 18",
  });
  expect(lines.Note).toBeUndefined();
  expect(Object.keys(lines)).toEqual(signedLines(draft, setup()).map(([label]) => label));
  expect(Object.fromEntries(signedLines(begun, setup()))["Existing marks"]).toBe("None recorded.");
});
