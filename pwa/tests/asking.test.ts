/** In whose name a phone asks for what it shows. */

import { expect, test } from "vitest";
import { askAnswers } from "../src/flow/answers";
import { keepAnswer, SETUP_KEY } from "../src/store/answers";
import { markRefused } from "../src/store/identities";
import { FakeServer } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, joined, phone, setup } from "./making";

test("once the server has refused the newer device of a person, the older one asks, though the screen knows nothing yet", async () => {
  const db = await phone();
  await joined(db, "p-maru", "d-1");
  await joined(db, "p-maru", "d-2");
  const answer = { events: [setup()], devices: [] };
  await keepAnswer(db, { key: SETUP_KEY, answer, etag: null, heard_at: AT, arrivals: 0, as_of: null });
  const core = freshCore(db, "p-maru", () => AT_MS);
  await core.refresh();
  const shown = core.snapshot().speaking?.device;
  await markRefused(db, shown ?? "", true);
  const server = new FakeServer();
  await askAnswers(core, { db, fetch: server.fetch, now: core.now });
  expect(server.calls.length).toBeGreaterThan(0);
  expect(new Set(server.calls.map((call) => call.token))).not.toContain(`token of ${shown}`);
});
