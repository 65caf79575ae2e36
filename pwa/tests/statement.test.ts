import { expect, test } from "vitest";
import type { Entry, Statement } from "../src/kit/api";
import { addedOf, contentOf, decisionsOf, settledOf } from "../src/report/statement";

const LINE = {
  line: "repair/42/front-left/wheel/x",
  job: "front-left/wheel",
  says: "Replace wheel, front left (bent)",
  action: "replace",
  condition: "bent",
  service: null,
  repaired: true,
  mechanic_minutes: 6,
  labour: "5.50",
  parts: [],
  parts_cost: "0.00",
  consumables: "0.00",
  amount: "5.50",
  entries: ["e1"],
  photos: ["a".repeat(64)],
  photos_before: [],
  standing: null,
  tag: null,
};

const draft = (lines: number): Statement =>
  ({
    customer: "Lena",
    currency: "EUR",
    rates: "r",
    entry: null,
    incidents: [{ incident: "i", title: "The bank", lines: Array(lines).fill(LINE), steps: [], to_pay: "5.50" }],
    not_charged: [{ line: "open/42/x/y", job: "x/y", says: "Y", why: "wear", entries: ["e2"], photos: [] }],
    steps: [],
    totals: {},
  }) as unknown as Statement;

test("what goes out is the draft without what can be looked up", () => {
  const content = contentOf(draft(1));
  const { entries, photos, photos_before, standing, tag, ...kept } = LINE;
  expect(content?.incidents[0]?.lines).toEqual([kept]);
  expect(content?.not_charged).toEqual([{ line: "open/42/x/y", job: "x/y", says: "Y", why: "wear" }]);
  expect(content && "entry" in content).toBe(false);
});

test("what is charged besides damage goes out with its sums, and without what lies behind it", () => {
  const stated = {
    line: "other/42/fuel",
    kind: "fuel",
    says: "Fuel",
    qty: 32,
    unit: "l",
    price: "2.10",
    amount: "67.20",
  };
  const other = [{ ...stated, entries: ["e1"], photos: [], standing: null }];
  expect(contentOf({ ...draft(1), other } as unknown as Statement)?.other).toEqual([stated]);
  expect(contentOf(draft(1)) && "other" in (contentOf(draft(1)) ?? {})).toBe(false);
});

test("a charge that is corrected takes over what stands of its line, the first entry of one by hand, too", () => {
  const entries = [
    entry("a", "charge.added", "", {}),
    entry("b", "charge.added", "other/42/a", { replaces: ["a"] }),
    entry("c", "charge.added", "other/42/fuel", {}),
  ];
  expect(addedOf("other/42/a", entries.slice(0, 1))).toEqual(["a"]);
  expect(addedOf("other/42/a", entries)).toEqual(["b"]);
  expect(addedOf("other/42/fuel", entries)).toEqual(["c"]);
});

test("a statement that one entry cannot hold is not made", () => {
  expect(contentOf(draft(40))).not.toBeNull();
  expect(contentOf(draft(80))).toBeNull();
});

const entry = (id: string, kind: string, subject: string, data: object): Entry =>
  ({ id, kind, subject, data }) as unknown as Entry;

test("a decision takes over those of its own line that stand", () => {
  const entries = [
    entry("b", "charge.decided", "l", { charge: "wear", replaces: ["a"] }),
    entry("a", "charge.decided", "l", { charge: "damage" }),
    entry("c", "charge.decided", "other", { charge: "damage" }),
  ];
  expect(decisionsOf("l", entries)).toEqual(["b"]);
  expect(decisionsOf("none", entries)).toEqual([]);
});

test("what became of a line is told by statement and line", () => {
  const entries = [
    entry("a", "statement.line_settled", "s1", { line: "l", standing: "agreed" }),
    entry("b", "statement.line_settled", "s2", { line: "l", standing: "agreed" }),
    entry("c", "statement.line_settled", "s1", { line: "m", standing: "agreed" }),
  ];
  expect(settledOf("s1", "l", entries)).toEqual(["a"]);
});
