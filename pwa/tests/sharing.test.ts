/**
 * What another app shares: taken in by the service worker, made into photos by the page.
 *
 * The form is posted as the Web Share Target API (W3C draft) has it: multipart, every file under the manifest's name.
 */

import { expect, test } from "vitest";
import { takeFrom } from "../src/flow/shared";
import { MOST_SHARED, SHARE_FIELD } from "../src/kit/shared";
import { UserError } from "../src/kit/user_error";
import { isFromElsewhere, takeShared as takeIn } from "../src/worker/sharing";

/** A cache as the browser has one, as far as this goes: what is put comes back, in its order. */
class FakeCache {
  held = new Map<string, Response>();
  full = false;
  url = (at: RequestInfo | URL) => (at instanceof Request ? at.url : new URL(String(at), "https://van.test").href);
  keys = async () => [...this.held.keys()].map((url) => new Request(url));
  match = async (at: RequestInfo | URL) => this.held.get(this.url(at))?.clone();
  delete = async (at: RequestInfo | URL) => this.held.delete(this.url(at));
  put = async (at: RequestInfo | URL, response: Response) => {
    if (this.full) throw new DOMException("no room", "QuotaExceededError");
    this.held.set(this.url(at), response);
  };
}

const cachesOf = (cache: FakeCache) =>
  ({ open: async () => cache, delete: async () => cache.held.size === 0 }) as unknown as CacheStorage;

const file = (name: string, type = "image/jpeg") => new File([name], name, { type });

function post(files: File[], field = SHARE_FIELD): Request {
  const body = new FormData();
  for (const one of files) body.append(field, one);
  return new Request("https://van.test/share", { method: "POST", body });
}

const NOON_MS = Date.UTC(2026, 10, 27, 12);
const DAY_MS = 86_400_000;

const takeInto = (cache: FakeCache, files: File[], now_ms = NOON_MS) =>
  takeIn(post(files), cache as unknown as Cache, now_ms);

/** Stands for the shrinking worker: a photo's name is its text. */
const keepPhoto = (blob: Blob) => blob.text();

test("several photos wait in their order, and the page is the log's way to them", async () => {
  const cache = new FakeCache();
  const answer = await takeInto(cache, [file("a"), file("b", "image/png")]);
  expect([answer.status, answer.headers.get("Location")]).toEqual([303, "https://van.test/#/log/shared"]);
  const shared = await takeFrom(cachesOf(cache), keepPhoto);
  expect(shared).toEqual({ photos: ["a", "b"], unreadable: 0, not_photos: 0, too_many: 0, no_room: 0 });
  expect(cache.held.size).toBe(0);
  expect((await takeFrom(cachesOf(cache), keepPhoto)).photos).toEqual([]);
});

test("the name that the gallery gave is not kept", async () => {
  const cache = new FakeCache();
  await takeInto(cache, [file("IMG_20261127_farm_gate.jpg")]);
  expect([...cache.held.keys()].join()).not.toContain("farm");
});

test("what is no photo is refused and counted, and a drawing with scripts is none", async () => {
  const cache = new FakeCache();
  await takeInto(cache, [file("a"), file("notes.pdf", "application/pdf"), file("x.svg", "image/svg+xml")]);
  await takeInto(cache, [file("clip.mp4", "video/mp4")]);
  const shared = await takeFrom(cachesOf(cache), keepPhoto);
  expect([shared.photos, shared.not_photos]).toEqual([["a"], 3]);
});

test("no more than so many wait, those of an earlier share counted", async () => {
  const cache = new FakeCache();
  await takeInto(cache, [file("first")]);
  const many = Array.from({ length: MOST_SHARED + 4 }, (_, at) => file(`${at}`));
  await takeInto(cache, many);
  const shared = await takeFrom(cachesOf(cache), keepPhoto);
  expect(shared.photos).toHaveLength(MOST_SHARED);
  expect(shared.too_many).toBe(5);
});

test("what nobody fetched within a day is not mixed into another day's report", async () => {
  const cache = new FakeCache();
  await takeInto(cache, [file("yesterday")]);
  await takeInto(cache, [file("later")], NOON_MS + 60_000);
  await takeInto(cache, [file("today")], NOON_MS + DAY_MS + 30_000);
  expect((await takeFrom(cachesOf(cache), keepPhoto)).photos).toEqual(["later", "today"]);
});

test("a full phone and what is no form lead to the page all the same", async () => {
  const cache = new FakeCache();
  cache.full = true;
  expect((await takeInto(cache, [file("a")])).status).toBe(303);
  const text = new Request("https://van.test/share", { method: "POST", body: "no form" });
  expect((await takeIn(text, cache as unknown as Cache, NOON_MS)).status).toBe(303);
  expect((await takeIn(post([file("a")], "other"), cache as unknown as Cache, NOON_MS)).status).toBe(303);
  expect(cache.held.size).toBe(0);
});

test("a photo that can't be read stands in no other's way; a fault of the app leaves the rest waiting", async () => {
  const cache = new FakeCache();
  await takeInto(cache, [file("bad"), file("good")]);
  const keep = async (blob: Blob) => {
    const text = await blob.text();
    if (text === "bad") throw new UserError("can't be read");
    return text;
  };
  const shared = await takeFrom(cachesOf(cache), keep);
  expect([shared.photos, shared.unreadable]).toEqual([["good"], 1]);

  await takeInto(cache, [file("a"), file("b")]);
  const broken = () => Promise.reject(new TypeError("broken"));
  await expect(takeFrom(cachesOf(cache), broken)).rejects.toThrow("broken");
  expect((await takeFrom(cachesOf(cache), keepPhoto)).photos).toEqual(["a", "b"]);
});

test("what another site posts is not taken, and the page says that nothing was shared", async () => {
  const cache = new FakeCache();
  await takeInto(cache, [file("mine")]);
  const request = post([file("theirs")]);
  Object.defineProperty(request, "referrer", { value: "https://elsewhere.test/" });
  const answer = await takeIn(request, cache as unknown as Cache, NOON_MS);
  expect([answer.status, answer.headers.get("Location")]).toEqual([303, "https://van.test/#/log/shared"]);
  expect((await takeFrom(cachesOf(cache), keepPhoto)).photos).toEqual(["mine"]);
});

test.each([
  ["the system's share", {}, "", false],
  ["the system's share, as a request says it", {}, "about:client", false],
  ["an app's share on Android", {}, "android-app://org.example.gallery/", false],
  ["the system's share, told by the browser", { "Sec-Fetch-Site": "none", Origin: "null" }, "", false],
  ["the app itself", { "Sec-Fetch-Site": "same-origin", Origin: "https://van.test" }, "https://van.test/", false],
  ["another site's page", {}, "https://elsewhere.test/", true],
  ["another port of the van", {}, "https://van.test:8018/trust", true],
  ["plain http of the same name", {}, "http://van.test/", true],
  ["another site by its origin", { Origin: "https://elsewhere.test" }, "", true],
  ["a page that hides its referrer, told by the browser", { "Sec-Fetch-Site": "cross-site", Origin: "null" }, "", true],
  ["a neighbour of the same site", { "Sec-Fetch-Site": "same-site" }, "", true],
])("%s", (_, headers, referrer, elsewhere) => {
  const request = { headers: new Headers(headers as Record<string, string>), referrer, url: "https://van.test/share" };
  expect(isFromElsewhere(request)).toBe(elsewhere);
});
