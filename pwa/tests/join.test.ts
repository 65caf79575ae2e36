/** Joining: what a code brings, and what it says when it brings nothing. */

import { expect, test } from "vitest";
import { makeKey } from "../src/kit/device_key";
import { askToJoin, codeHash, identityOf } from "../src/sync/join";
import type { Fetch } from "../src/sync/wire";
import { json, PORTAL, problem } from "./fake_server";

const ANSWER = {
  token: "t",
  device: "d-1",
  person: "p-maru",
  name: "Maru",
  roles: ["co-driver", "wizard"],
  events: ["e"],
};
const from = (response: () => Response | Promise<Response>) => askToJoin(async () => response(), "CODE", null);

test("a good code", async () => {
  const reply = await from(() => json(200, ANSWER));
  expect(reply).toEqual({ joined: { ...ANSWER, roles: ["co-driver"] } });
});

test("the device's public key goes with the code, and no part of its private one", async () => {
  const key = await makeKey();
  const sent: unknown[] = [];
  const fetch: Fetch = async (_url, init) => {
    sent.push(JSON.parse(init.body as string));
    return json(200, ANSWER);
  };
  await askToJoin(fetch, "CODE", key);
  await askToJoin(fetch, "CODE", null);
  expect(sent).toEqual([{ code: "CODE", key: key?.public }, { code: "CODE" }]);
});

test("who joins beside somebody names that device; a server of 0.1, which knows no such field, is asked without it", async () => {
  const sent: unknown[] = [];
  const fetch: Fetch = async (_url, init) => {
    const body = JSON.parse(init.body as string);
    sent.push(body);
    return "beside" in body ? problem(422, "wrong-shape", "beside: Unknown field") : json(200, ANSWER);
  };
  const reply = await askToJoin(fetch, "CODE", null, { beside: "d-0" });
  expect(sent).toEqual([{ code: "CODE", beside: "d-0" }, { code: "CODE" }]);
  expect(reply).toMatchObject({ joined: { device: "d-1" } });
});

test("a used or unknown code fails for good, in the server's words", async () => {
  const used = await from(() => problem(410, "used-code", "This link was used"));
  expect(used).toEqual({ failed: "This link was used. This link was used", again: false });
});

test("no network, a captive portal, an answer of the wrong shape: it may still work later", async () => {
  const failures = [
    () => Promise.reject(new TypeError("Failed to fetch")),
    () => PORTAL(null as never, "", {}) as Response,
    () => json(200, { person: "p-maru" }),
  ];
  for (const failure of failures) expect(await from(failure)).toMatchObject({ again: true });
});

test("a code is remembered by its SHA-256 (FIPS 180-4's example, 'abc')", async () => {
  expect(await codeHash("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  const identity = identityOf({ ...ANSWER, roles: ["co-driver"] }, "h", "2026-05-16T08:00:00Z", null);
  expect(identity).toMatchObject({ device: "d-1", token: "t", code_hash: "h", refused: false });
});
