/** What a paper would look like: a page by its tag, a table's first rows, and in words why there is none. */

import { beforeEach, expect, test } from "vitest";
import type { Core } from "../src/flow/core";
import { previewDocument } from "../src/flow/previewing";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import type { Fetch } from "../src/sync/wire";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, EVENT, joined, phone, setup } from "./making";

let core: Core;
let asked: { path: string; headers: Headers }[] = [];
const PAGE = `cars/${CAR}/documents/record.png?paper=a4&page=2`;

beforeEach(async () => {
  asked = [];
  const db = await phone();
  core = freshCore(db, "p-jo", () => AT_MS);
  const answer = { log_id: "l", events: [setup()] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 0 });
  await joined(db, "p-jo", "d-1", { roles: ["mechanic"] });
  await core.refresh();
});

const answers =
  (body: BodyInit | null, status: number, headers: Record<string, string> = {}): Fetch =>
  async (path, how) => {
    asked.push({ path, headers: new Headers(how.headers) });
    return new Response(body, { status, headers });
  };

test("a page is asked for with the token, and comes with how many there are and its tag", async () => {
  core.fetch = answers("png", 200, { "Content-Type": "image/png", "Page-Count": "4", ETag: '"t"' });
  const seen = await previewDocument(core, PAGE, null);
  expect(asked[0]?.path).toBe(`/api/v1/events/${EVENT}/${PAGE}`);
  expect(asked[0]?.headers.get("Authorization")).toMatch(/^Bearer ./);
  expect(asked[0]?.headers.has("If-None-Match")).toBe(false);
  if (seen.kind !== "page") throw new Error(seen.kind);
  expect([seen.pages, seen.tag]).toEqual([4, '"t"']);
  expect(await (await fetch(seen.url)).text()).toBe("png");
});

test("a page that is held is asked for by its tag, and not sent again", async () => {
  core.fetch = answers(null, 304);
  expect(await previewDocument(core, PAGE, '"t"')).toEqual({ kind: "same" });
  expect(asked[0]?.headers.get("If-None-Match")).toBe('"t"');
});

test("of a table its heads and first rows are seen, and how many there are", async () => {
  const rows = Array.from({ length: 40 }, (_, at) => `p-${at},"Hose, long",2`);
  core.fetch = answers(["part,description,qty", ...rows].join("\r\n"), 200, {
    "Content-Type": "text/csv; charset=utf-8",
  });
  const seen = await previewDocument(core, "costs.csv", null);
  if (seen.kind !== "rows") throw new Error(seen.kind);
  expect([seen.of, seen.rows.length]).toEqual([40, 26]);
  expect(seen.rows.slice(0, 2)).toEqual([
    ["part", "description", "qty"],
    ["p-0", "Hose, long", "2"],
  ]);
});

test("an empty table has no rows", async () => {
  core.fetch = answers("part,description\r\n", 200, { "Content-Type": "text/csv" });
  expect(await previewDocument(core, "costs.csv", null)).toEqual({
    kind: "rows",
    rows: [["part", "description"]],
    of: 0,
  });
});

test("what the server refuses is said in its words", async () => {
  const problem = { type: "x", title: "Not held here", detail: "No hand-over was signed.", status: 404 };
  core.fetch = answers(JSON.stringify(problem), 404, { "Content-Type": "application/problem+json" });
  expect(await previewDocument(core, PAGE, null)).toEqual({
    kind: "refused",
    why: "Not held here. No hand-over was signed.",
  });
});

test.each([
  ["a captive page", "<html>Welcome</html>", 200, "text/html"],
  ["a server in trouble", '{"type":"x","title":"t"}', 503, "application/problem+json"],
  ["half a problem", '{"type":', 404, "application/problem+json"],
])("%s is no answer", async (_, body, status, type) => {
  core.fetch = answers(body, status, { "Content-Type": type });
  expect(await previewDocument(core, PAGE, null)).toEqual({ kind: "unreachable" });
});

test("without a network there is none, and a fault of our own is not taken for that", async () => {
  core.fetch = async () => {
    throw new TypeError("Failed to fetch");
  };
  expect(await previewDocument(core, PAGE, null)).toEqual({ kind: "unreachable" });
  core.fetch = async () => {
    throw new RangeError("broken");
  };
  await expect(previewDocument(core, PAGE, null)).rejects.toThrow(RangeError);
});
