import { expect, test } from "vitest";
import { coalesced } from "../src/flow/refresh";

test("reads never overlap, whenever one is asked for, and each call sees what was written before it", async () => {
  let [written, under_way, most, seen] = [0, 0, 0, 0];
  const refresh = coalesced(async () => {
    under_way += 1;
    most = Math.max(most, under_way);
    const read = written;
    await new Promise((done) => setTimeout(done, 1));
    under_way -= 1;
    seen = read;
  });
  const asked: Promise<void>[] = [];
  const ask = () => {
    written += 1;
    const mine = written;
    asked.push(refresh().then(() => expect(seen).toBeGreaterThanOrEqual(mine)));
  };
  ask();
  ask();
  // In each of the moments between the end of a run and the start of the one after it.
  let moment = asked[0] ?? Promise.resolve();
  for (let step = 0; step < 12; step += 1) {
    moment = moment.then(ask);
  }
  await moment;
  await Promise.all(asked);
  expect(most).toBe(1);
  expect(seen).toBe(written);
});

test("a run that fails is its own caller's trouble", async () => {
  let runs = 0;
  const refresh = coalesced(async () => {
    runs += 1;
    if (runs === 1) throw new Error("no store");
  });
  const [first, second] = [refresh(), refresh()];
  await expect(first).rejects.toThrow("no store");
  await second;
  await refresh();
  expect(runs).toBe(3);
});
