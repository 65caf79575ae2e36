/** Browsers that lack a part, refuse it, or never answer: what a person is about goes on. */

import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Core } from "../src/flow/core";
import { openDetector } from "../src/flow/detecting";
import { join } from "../src/flow/joining";
import { lookAtStore } from "../src/flow/storage";
import { locate } from "../src/flow/locating";
import { shareOf } from "../src/flow/sharing";
import { orElse } from "../src/kit/patience";
import type { Db } from "../src/store/db";
import { identitiesHere } from "../src/store/identities";
import { openTabs } from "../src/store/tabs";
import { record } from "../src/view/voice/microphone";
import { json } from "./fake_server";
import { freshCore } from "./fresh_core";
import { AT_MS, phone } from "./making";
import "./quick_pins";

const never = () => new Promise<never>(() => {});
const refuses = () => Promise.reject(new DOMException("not here", "SecurityError"));
const throws = () => {
  throw new DOMException("not here", "SecurityError");
};

let db: Db;
let core: Core;

beforeEach(async () => {
  db = await phone();
  core = freshCore(db, "", () => AT_MS);
  const asMaru = { token: "t", device: "d-1", person: "p-maru", name: "Maru", roles: ["co-driver"], events: ["e"] };
  core.fetch = async () => json(200, asMaru);
  vi.stubGlobal("sessionStorage", { getItem: () => null, setItem() {} });
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

for (const [how, persist] of Object.entries({ never, refuses, throws })) {
  test(`joining waits for no leave to keep the store (${how}): the person is in, with the PIN that was typed`, async () => {
    vi.stubGlobal("navigator", { storage: { persist, persisted: persist, estimate: persist } });
    expect(await join(core, "CODE", "4711")).toBe(true);
    expect(core.snapshot().speaking?.person).toBe("p-maru");
    expect((await identitiesHere(db))[0]?.pin).not.toBeNull();
  });
}

test("what the browser says of its store is shown once it answers; where it does not, it is not known", async () => {
  let answer: (kept: boolean) => void = () => {};
  const persisted = () => new Promise<boolean>((kept) => (answer = kept));
  vi.stubGlobal("navigator", { storage: { persisted, estimate: async () => ({ usage: 1, quota: 3 }) } });
  lookAtStore(core);
  await vi.waitFor(() => expect(core.snapshot().state.space).toEqual({ used: 1, quota: 3 }));
  expect(core.snapshot().state.persisted).toBeNull();
  answer(true);
  await vi.waitFor(() => expect(core.snapshot().state.persisted).toBe(true));
});

test("tabs without a channel, or with one that refuses, tell each other nothing and stop nobody", () => {
  vi.stubGlobal("BroadcastChannel", undefined);
  openTabs(() => {}).tell("waiting");
  vi.stubGlobal(
    "BroadcastChannel",
    class {
      constructor() {
        throws();
      }
    },
  );
  openTabs(() => {}).tell("waiting");
  vi.stubGlobal(
    "BroadcastChannel",
    class {
      postMessage = throws;
      close() {}
    },
  );
  const tabs = openTabs(() => {});
  tabs.tell("store");
  tabs.close();
});

/** What is answered once a minute has passed, with no waiting for it. */
async function aMinuteLater<Answer>(answer: Promise<Answer>): Promise<Answer> {
  await vi.advanceTimersByTimeAsync(60_000);
  return answer;
}

test("a detector that never says what it reads, or never looks, leaves it to the plain one", async () => {
  vi.useFakeTimers();
  vi.stubGlobal("document", { createElement: () => ({ getContext: () => null }) });
  const video = { videoWidth: 2, videoHeight: 2 } as HTMLVideoElement;
  for (const own of [
    { formats: never, detect: never },
    { formats: throws, detect: never },
    { formats: async () => ["qr_code"], detect: never },
    { formats: async () => ["qr_code"], detect: refuses },
  ]) {
    vi.stubGlobal(
      "BarcodeDetector",
      class {
        static getSupportedFormats = own.formats;
        detect = own.detect;
      },
    );
    const detect = await aMinuteLater(openDetector());
    expect(await aMinuteLater(detect(video))).toEqual([]);
  }
});

test("a microphone that the browser then can't record is let go", async () => {
  const stop = vi.fn();
  const getUserMedia = async () => ({ getTracks: () => [{ stop }] });
  vi.stubGlobal("window", { MediaRecorder: true });
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia } });
  vi.stubGlobal(
    "MediaRecorder",
    class {
      static isTypeSupported = () => true;
      constructor() {
        throws();
      }
    },
  );
  expect(await record()).toBe("absent");
  expect(stop).toHaveBeenCalledOnce();
});

test("a recorder that never tells its end gives what it has", async () => {
  const getUserMedia = async () => ({ getTracks: () => [{ stop() {} }] });
  vi.stubGlobal("window", { MediaRecorder: true });
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia } });
  vi.stubGlobal(
    "MediaRecorder",
    class {
      static isTypeSupported = () => true;
      state = "recording";
      mimeType = "audio/webm";
      ondataavailable: (part: { data: Blob }) => void = () => {};
      start() {
        this.ondataavailable({ data: new Blob(["said"]) });
      }
      stop() {}
    },
  );
  const recording = await record();
  if (typeof recording === "string") throw new Error(recording);
  vi.useFakeTimers();
  const kept = recording.keep();
  await vi.advanceTimersByTimeAsync(10_000);
  expect((await kept)?.size).toBe(4);
});

test("a position that is never answered, since the person never says yes or no, is one that did not come in time", async () => {
  vi.useFakeTimers();
  vi.stubGlobal("navigator", { geolocation: { getCurrentPosition() {} } });
  const answer = locate(core, null);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(await answer).toEqual({ refused: "timeout" });
});

test("a sharing sheet that never tells that it was closed holds up nothing; what can't be shared is told", async () => {
  vi.useFakeTimers();
  vi.stubGlobal("navigator", { canShare: () => true, share: never });
  const shared = shareOf(new File([], "a.pdf"))?.();
  await vi.advanceTimersByTimeAsync(10_000);
  await shared;
  vi.stubGlobal("navigator", { canShare: () => true, share: () => Promise.reject(new DOMException("", "DataError")) });
  await expect(shareOf(new File([], "a.pdf"))?.()).rejects.toThrow(DOMException);
});

test("asking brings the answer, or what is said otherwise; other errors are nobody's refusal", async () => {
  expect(await orElse(async () => 7, null, 1_000)).toBe(7);
  expect(await orElse(refuses, null, 1_000)).toBeNull();
  expect(await orElse(throws, null, 1_000)).toBeNull();
  expect(await orElse(never, null, 200)).toBeNull();
  await expect(orElse(() => Promise.reject(new Error("broken")), null, 1_000)).rejects.toThrow("broken");
});
