/** The app is kept file by file; a signal lost on the way puts it off and does not end it. */

import { expect, test } from "vitest";
import { inOrder } from "../scripts/keeping-order.mjs";
import { keepApp, type Keeper } from "../src/flow/keeping";
import type { Keeping } from "../src/kit/kept_app";

class FakeWorker extends EventTarget {
  state = "installing";
  becomes(state: string) {
    this.state = state;
    this.dispatchEvent(new Event("statechange"));
  }
}

/** A browser whose worker does as it is told; `waits` is what runs later, and when. */
function browser(reachable = true, state = "installing") {
  const online = new EventTarget();
  const workers: FakeWorker[] = [];
  const said: Keeping[] = [];
  const there: unknown[] = [];
  const waits: { run: () => void; ms: number; forgotten: boolean }[] = [];
  const is = { calls: 0 };
  const keeper: Keeper = {
    online,
    async register() {
      is.calls += 1;
      if (!reachable) throw new TypeError("Failed to register a ServiceWorker");
      const worker = new FakeWorker();
      worker.state = state;
      workers.push(worker);
      return { installing: worker, waiting: null, active: null } as unknown as ServiceWorkerRegistration;
    },
    later(run, ms) {
      const one = { run, ms, forgotten: false };
      waits.push(one);
      return () => {
        one.forgotten = true;
      };
    },
  };
  const onKept = keepApp(
    keeper,
    (keeping) => said.push(keeping),
    (worker) => there.push(worker),
  );
  return { online, workers, said, there, waits, is, onKept };
}

/** Lets what was settled go on. */
const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

test("a worker that fell over is registered again when the network is back, and says how far it was", async () => {
  const here = browser();
  await turn();
  here.onKept({ kept: 1, of: 150 });
  here.onKept({ kept: 3, of: 150 });
  here.workers[0]?.becomes("redundant");
  await turn();
  expect(here.said.at(-1)).toEqual({ state: "retrying", kept: 3, of: 150 });
  expect(here.is.calls).toBe(1);
  here.online.dispatchEvent(new Event("online"));
  await turn();
  expect(here.is.calls).toBe(2);
  expect(here.there).toEqual([]);
  here.workers[1]?.becomes("activated");
  await turn();
  expect(here.there.length).toBe(1);
  here.online.dispatchEvent(new Event("online"));
  here.onKept({ kept: 9, of: 150 });
  await turn();
  expect(here.is.calls, "what is kept is not asked for again").toBe(2);
  expect(here.said.at(-1)?.state, "nor said of a later version").toBe("retrying");
});

test("a worker that fell over before anybody listened is registered again, too, and its last word is not lost", async () => {
  const here = browser(true, "redundant");
  await turn();
  expect(here.said.at(-1)).toEqual({ state: "retrying", kept: 0, of: null });
  here.onKept({ kept: 3, of: 150 });
  expect(here.said.at(-1)).toEqual({ state: "retrying", kept: 3, of: 150 });
  here.online.dispatchEvent(new Event("online"));
  await turn();
  expect(here.is.calls).toBe(2);
});

test("without an event it is tried again, ever more seldom, and no wait is left from a try before", async () => {
  const here = browser(false);
  await turn();
  for (let tries = 1; tries <= 8; tries++) {
    expect(here.is.calls).toBe(tries);
    expect(here.said.at(-1)).toEqual({ state: "retrying", kept: 0, of: null });
    here.waits.at(-1)?.run();
    await turn();
  }
  const waits = here.waits.map((one) => one.ms);
  expect(waits[0]).toBeLessThanOrEqual(5_000);
  expect(Math.max(...waits)).toBeLessThanOrEqual(60_000);
  expect(waits[7]).toBeGreaterThan(4 * (waits[0] ?? 0));
  here.online.dispatchEvent(new Event("online"));
  await turn();
  expect(here.waits.filter((one) => !one.forgotten).length).toBe(1);
});

test("the screens are not drawn for each file", async () => {
  const here = browser();
  await turn();
  for (let kept = 1; kept <= 150; kept++) here.onKept({ kept, of: 150 });
  expect(here.said.length).toBeLessThan(10);
  expect(here.said[0]).toEqual({ state: "keeping", kept: 1, of: 150 });
});

test("what logs a hit is kept first", () => {
  const urls = ["assets/CostsScreen-1.js", "assets/log-1.js", "icon.svg"];
  const first = ["assets/index-1.css", "assets/index-1.js", "index.html"];
  const sorted = inOrder([...urls, ...first].map((url) => ({ url }))).map((one) => one.url);
  expect(sorted.slice(0, 3).sort()).toEqual(first);
  expect(sorted.slice(3)).toEqual(["assets/log-1.js", "assets/CostsScreen-1.js", "icon.svg"]);
});
