/** Documents to print: fetched with the token, shown as they come, refused in words; who is offered which. */

import { beforeEach, expect, test, vi } from "vitest";
import type { Role } from "../src/kit/api";
import { UserError } from "../src/kit/user_error";
import type { Core } from "../src/flow/core";
import { fetchDocument } from "../src/flow/fetching";
import { routeOf } from "../src/flow/route";
import type { Progress } from "../src/report/made_file";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import type { Fetch } from "../src/sync/wire";
import { DOCUMENTS, documentsFor, usualPaper } from "../src/view/documents/papers";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, EVENT, joined, phone, setup } from "./making";

let core: Core;
let asked: { path: string; init: RequestInit }[] = [];
const PATH = `cars/${CAR}/documents/record.pdf?paper=a4`;
const PDF = { "Content-Type": "application/pdf", "Content-Disposition": 'attachment; filename="e-41-record.pdf"' };

beforeEach(async () => {
  asked = [];
  // Node 20 has none; this browser shares no files.
  vi.stubGlobal("navigator", {});
  const db = await phone();
  core = freshCore(db, "p-jo", () => AT_MS);
  const answer = { log_id: "l", events: [setup()] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 0 });
  await joined(db, "p-jo", "d-1", { roles: ["mechanic"] });
  await core.refresh();
});

const answers =
  (body: BodyInit | null, init: ResponseInit): Fetch =>
  async (path, how) => {
    asked.push({ path, init: how });
    return new Response(body, init);
  };

const inPieces = (...pieces: string[]) =>
  new ReadableStream({
    start(stream) {
      for (const piece of pieces) stream.enqueue(new TextEncoder().encode(piece));
      stream.close();
    },
  });

const fetched = (seen: Progress[] = []) => fetchDocument(core, PATH, (progress) => seen.push(progress));

test("a document is asked for with the token, and its coming is told piece by piece", async () => {
  core.fetch = answers(inPieces("%PDF-", "1.7 …"), { headers: { ...PDF, "Content-Length": "12" } });
  const seen: Progress[] = [];
  const file = await fetched(seen);
  expect(asked.map((one) => one.path)).toEqual([`/api/v1/events/${EVENT}/${PATH}`]);
  expect(new Headers(asked[0]?.init.headers).get("Authorization")).toMatch(/^Bearer ./);
  expect(seen).toEqual([
    { bytes: 5, of: 12 },
    { bytes: 12, of: 12 },
  ]);
  expect([file.name, file.bytes, file.share]).toEqual(["e-41-record.pdf", 12, null]);
  expect(await (await fetch(file.url)).text()).toBe("%PDF-1.7 …");
});

test("a document of unknown length is told by its bytes, and named by its address", async () => {
  core.fetch = answers(inPieces("a,b"), { headers: { "Content-Type": "text/csv; charset=utf-8" } });
  const seen: Progress[] = [];
  expect((await fetched(seen)).name).toBe("record.pdf");
  expect(seen).toEqual([{ bytes: 3, of: null }]);
});

test.each([
  ["cut short", "%PDF", 200, { ...PDF, "Content-Length": "12" }],
  ["a captive page", "<html>Welcome</html>", 200, { "Content-Type": "text/html" }],
  ["a server in trouble", '{"type":"x","title":"t"}', 503, { "Content-Type": "application/problem+json" }],
  ["half a problem", '{"type":', 404, { "Content-Type": "application/problem+json" }],
])("%s is no document, and the person is told what to do", async (_, body, status, headers) => {
  core.fetch = answers(body, { status, headers });
  await expect(fetched()).rejects.toThrow(/The server did not answer/);
  await expect(fetched()).rejects.toBeInstanceOf(UserError);
});

test("without a network the person is told, too", async () => {
  await expect(fetched()).rejects.toThrow(/Come into its reach/);
});

test("what the server refuses is said in its words", async () => {
  const problem = { type: "x", title: "Not held here", detail: "No hand-over of car 41 was signed.", status: 404 };
  const headers = { "Content-Type": "application/problem+json" };
  core.fetch = answers(JSON.stringify(problem), { status: 404, headers });
  await expect(fetched()).rejects.toThrow("Not held here. No hand-over of car 41 was signed.");
});

const offered = (roles: Role[], advice_on_road = false) => {
  const one = setup();
  return documentsFor(roles, { ...one, regulations: { ...one.regulations, advice_on_road } });
};

test("each role is offered what the server gives it", () => {
  const service = DOCUMENTS.filter((name) => name !== "statement");
  expect(offered(["co-driver"])).toEqual(["declaration", "hand-over"]);
  expect(offered(["driver"], true)).toEqual(service);
  expect(offered(["mechanic"])).toEqual(service);
  expect(offered(["co-driver", "mechanic"])).toEqual(service);
  expect(offered(["manager"])).toEqual([...DOCUMENTS]);
});

test("the paper is what printers at the event hold", () => {
  const zones = ["Europe/Vienna", "Asia/Tokyo", "UTC", "America/Denver", "Canada/Eastern"];
  expect(zones.map(usualPaper)).toEqual(["a4", "a4", "a4", "letter", "letter"]);
});

test("documents have an address", () => {
  expect(routeOf("#/documents", ["mechanic"]).screen).toBe("documents");
});
