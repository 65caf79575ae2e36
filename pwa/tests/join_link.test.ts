/** A join link followed: the code leaves the address, and nobody who has gone on meanwhile is thrown back. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Core } from "../src/flow/core";
import { followJoinLink } from "../src/flow/joining";
import { messages } from "../src/kit/messages";
import { json, problem } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT_MS, joined, phone } from "./making";

const JOINED = { token: "t", device: "d-1", person: "p-boss", name: "Boss", roles: ["manager"], events: [] };
let address: { hash: string };

beforeEach(() => {
  address = { hash: "#/join/AB-CD" };
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("sessionStorage", { getItem: () => null, setItem: () => {} });
  vi.stubGlobal("location", address);
  vi.stubGlobal("history", {
    replaceState: (_state: null, _title: string, hash: string) => {
      address.hash = hash;
    },
  });
});
afterEach(() => vi.unstubAllGlobals());

async function following(onScreen: () => void): Promise<Core> {
  const core = freshCore(await phone(), "p-boss", () => AT_MS);
  core.page.person = null;
  core.page.hash = address.hash;
  core.fetch = async () => json(200, JOINED);
  const { refresh } = core;
  let shown = false;
  core.refresh = async () => {
    await refresh();
    if (core.page.person && !shown) onScreen();
    shown ||= core.page.person !== null;
  };
  await followJoinLink(core);
  return core;
}

test("a spent code leaves the address bar", async () => {
  const core = await following(() => {});
  expect([address.hash, core.page.hash]).toEqual(["#/", "#/"]);
});

test("who goes on as soon as the app is there stays where they went", async () => {
  await following(() => {
    address.hash = "#/setup";
  });
  expect(address.hash).toBe("#/setup");
});

/** A link followed on a phone where somebody is already; `answer`: what the server says to it. */
async function followedBesides(answer: (core: Core) => Promise<Response>): Promise<Core> {
  const db = await phone();
  await joined(db, "p-maru", "d-0");
  const core = freshCore(db, "p-maru", () => AT_MS);
  core.page.hash = address.hash;
  core.fetch = () => answer(core);
  await followJoinLink(core);
  await core.refresh();
  return core;
}

const shownBy = (core: Core) => [core.snapshot().state.joining, core.snapshot().state.identity?.person];

test("while a link is followed nobody's screen is shown, lest the next person log as the last", async () => {
  let meanwhile: unknown;
  const core = await followedBesides(async (core) => {
    await core.refresh();
    meanwhile = core.snapshot().state.joining;
    return json(200, JOINED);
  });
  expect(meanwhile).toBe(true);
  expect(shownBy(core)).toEqual([false, "p-boss"]);
});

test("where the server does not answer, the page of joining says so until the link is left", async () => {
  const core = await followedBesides(() => Promise.reject(new TypeError("no network")));
  expect(shownBy(core)).toEqual([true, "p-maru"]);
  expect(core.snapshot().state.join_problem).toBe(messages.joinNoServer);
  core.page.hash = "#/";
  await core.refresh();
  expect(shownBy(core)).toEqual([false, "p-maru"]);
});

test("a link that is refused for good leaves the address, and who is here is told why", async () => {
  const core = await followedBesides(async () => problem(410, "code-spent", "This code was used already"));
  expect(address.hash).toBe("#/");
  expect(shownBy(core)).toEqual([false, "p-maru"]);
  expect(core.snapshot().state.message?.text).toBe(core.page.join_problem);
  expect(core.page.join_problem).toBeTruthy();
});
