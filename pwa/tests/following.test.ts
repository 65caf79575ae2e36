/** What makes papers follows in the background: fetched one by one, tried again after a lost signal, and said. */

import { expect, test } from "vitest";
import { keepFollowing as keepAsking } from "../src/flow/following";
import { type Following, follows } from "../src/kit/kept_app";
import { followingSaid, keptSaid } from "../src/view/bits/KeptApp";
import { dropOthers, FOLLOWING_CACHE, keepFollowing, serveFollowing } from "../src/worker/following";

const URLS = [
  "https://van/assets/walk_paper-1.js",
  "https://van/assets/bold-1.ttf",
  "https://van/assets/regular-1.ttf",
];

/** Caches of one browser, by name, and a network that answers as long as `left` says. */
function phone(older: string[] = []) {
  const held = new Map<string, Map<string, Response>>([
    ["of-before", new Map(older.map((url) => [url, new Response("old")]))],
  ]);
  const cacheOf = (name: string) => {
    const files = held.get(name) ?? new Map<string, Response>();
    held.set(name, files);
    return {
      match: async (url: string) => files.get(url)?.clone(),
      put: async (url: string, response: Response) => void files.set(url, response),
      keys: async () => [...files.keys()].map((url) => ({ url })),
      delete: async (url: string) => files.delete(url),
    } as unknown as Cache;
  };
  const fetched: string[] = [];
  const network = { left: Number.POSITIVE_INFINITY, status: 200 };
  const store = {
    caches: {
      open: async (name: string) => cacheOf(name),
      match: async (url: RequestInfo | URL) =>
        [...held.values()].map((files) => files.get(String(url))).find((one) => one),
    },
    fetch: async (url: string) => {
      if (network.left-- <= 0) throw new TypeError("Failed to fetch");
      fetched.push(url);
      return new Response("new", { status: network.status });
    },
  };
  const told: Following[] = [];
  const keep = () => keepFollowing(URLS, store, (one) => told.push(one));
  return { store, fetched, network, told, keep, files: () => [...(held.get(FOLLOWING_CACHE)?.keys() ?? [])] };
}

test("what makes papers and another language follow; what logs a hit and shows a job does not", () => {
  const later = ["assets/walk_paper-1.js", "assets/bold-1.ttf", "assets/web-worker-1.js", "assets/fr-1.js"];
  expect(later.every(follows)).toBe(true);
  const first = ["index.html", "assets/index-1.js", "assets/JobScreen-1.js", "assets/papers-1.js"];
  expect(first.some(follows)).toBe(false);
});

test("each file is fetched once and told, and nothing is asked for again once all are here", async () => {
  const here = phone();
  await here.keep();
  expect(here.fetched).toEqual(URLS);
  expect(here.told.map(({ kept }) => kept)).toEqual([0, 1, 2, 3]);
  await here.keep();
  expect(here.fetched.length).toBe(3);
  expect(here.told.at(-1)).toEqual({ follows: true, kept: 3, of: 3, failed: false });
});

test("a signal lost on the way is told, what came stays, and only the rest is fetched later", async () => {
  const here = phone();
  here.network.left = 1;
  await here.keep();
  expect(here.told.at(-1)).toEqual({ follows: true, kept: 1, of: 3, failed: true });
  here.network.left = 9;
  await here.keep();
  expect(here.fetched).toEqual(URLS);
  expect(here.told.at(-1)).toMatchObject({ kept: 3, failed: false });
});

test("an answer that is no file is not kept", async () => {
  const here = phone();
  here.network.status = 503;
  await here.keep();
  expect(here.files()).toEqual([]);
  expect(here.told.at(-1)).toMatchObject({ kept: 0, failed: true });
});

test("what an older version of the app keeps under the same name is taken over without a network", async () => {
  const here = phone(URLS.slice(1));
  here.network.left = 1;
  await here.keep();
  expect(here.fetched).toEqual(URLS.slice(0, 1));
  expect(here.told.at(-1)).toMatchObject({ kept: 3, failed: false });
});

test("a file is served from here, from the server where it is not here yet, and dropped once no version has it", async () => {
  const here = phone();
  await here.keep();
  here.network.left = 0;
  const [first = ""] = URLS;
  expect(await (await serveFollowing(new Request(first), here.store)).text()).toBe("new");
  await dropOthers(URLS.slice(1), here.store);
  expect(here.files()).toEqual(URLS.slice(1));
  await expect(serveFollowing(new Request(first), here.store)).rejects.toThrow(TypeError);
});

test("the page asks again after a wait that grows, at once when the network is back, and never twice for one failure", () => {
  const online = new EventTarget();
  const waits: { run: () => void; ms: number; forgotten: boolean }[] = [];
  const said: Following[] = [];
  let asked = 0;
  const later = (run: () => void, ms: number) => {
    const one = { run, ms, forgotten: false };
    waits.push(one);
    return () => {
      one.forgotten = true;
    };
  };
  const told = keepAsking(
    () => asked++,
    { online, later },
    (one) => said.push(one),
  );
  const failed: Following = { follows: true, kept: 1, of: 3, failed: true };
  expect(asked).toBe(1);
  online.dispatchEvent(new Event("online"));
  expect(asked, "nothing has failed").toBe(1);
  told(failed);
  told(failed);
  expect(waits.length).toBe(1);
  waits[0]?.run();
  expect(asked).toBe(2);
  told(failed);
  expect(waits[1]?.ms).toBeGreaterThan(waits[0]?.ms ?? 0);
  online.dispatchEvent(new Event("online"));
  expect([asked, waits[1]?.forgotten]).toEqual([3, true]);
  told({ ...failed, kept: 3, failed: false });
  expect([waits.length, said.length]).toEqual([2, 4]);
});

test("ready is said without it, and what follows by itself", () => {
  expect(keptSaid({ state: "ready" })).toBe("Ready to work without signal ✓");
  const following = { follows: true as const, kept: 1, of: 4, failed: false };
  expect(followingSaid(following)).toBe("Papers and workbooks follow: 1 of 4 files");
  expect(followingSaid({ ...following, failed: true })).toContain("retrying");
  expect(followingSaid({ ...following, kept: 4 })).toBe("Papers and workbooks work without signal, too");
});
