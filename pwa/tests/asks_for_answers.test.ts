/** In whose name a phone asks for what it shows, and which of two answers it keeps. */

import { expect, test, vi } from "vitest";
import { askAnswers } from "../src/flow/answers";
import { keepAnswer, queueHere, SETUP_KEY } from "../src/store/answers";
import { markRefused } from "../src/store/identities";
import { writeMeta } from "../src/store/meta";
import { fetchQueue } from "../src/sync/answers";
import type { Fetch } from "../src/sync/wire";
import { FakeServer, json } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT, AT_MS, CAR, EVENT, joined, phone, queue, setup } from "./making";

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

test("an answer that was long on its way does not take the place of one that was asked for after it", async () => {
  const db = await phone();
  const deps = { db, fetch: vi.fn<Fetch>(), now: () => AT_MS };
  const answers: ((reply: Response) => void)[] = [];
  deps.fetch.mockImplementation(() => new Promise((resolve) => answers.push(resolve)));
  const [late, soon] = [queue({ hash: "older" }).answer, queue({ hash: "newer" }).answer];
  const first = fetchQueue(deps, "token", EVENT, CAR);
  await vi.waitFor(() => expect(answers).toHaveLength(1));
  await writeMeta(db, "arrivals", 3);
  const second = fetchQueue(deps, "token", EVENT, CAR);
  await vi.waitFor(() => expect(answers).toHaveLength(2));
  answers[1]?.(json(200, soon));
  expect(await second).toBe("new");
  answers[0]?.(json(200, late));
  expect(await first).toBe("same");
  expect((await queueHere(db, EVENT, CAR))?.answer.hash).toBe("newer");
});
