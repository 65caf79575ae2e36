/** A join link followed: the code leaves the address, and nobody who has gone on meanwhile is thrown back. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Core } from "../src/flow/core";
import { followJoinLink } from "../src/flow/joining";
import { json } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT_MS, phone } from "./making";

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
