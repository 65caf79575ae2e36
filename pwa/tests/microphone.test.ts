/** The microphone is closed again where it opened and nothing can be recorded. */

import { afterEach, expect, test, vi } from "vitest";
import { record } from "../src/view/voice/microphone";

afterEach(() => vi.unstubAllGlobals());

/** As WebKit without an encoder does: it makes a recorder of no kind, which then does not start. */
class Unable {
  static isTypeSupported = () => false;
  start() {
    throw new DOMException("The MediaRecorder is unsupported on this platform", "NotSupportedError");
  }
}

test("a browser that opens the microphone and can't record says so and lets go of it", async () => {
  const track = { stop: vi.fn() };
  vi.stubGlobal("window", { MediaRecorder: Unable });
  vi.stubGlobal("MediaRecorder", Unable);
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia: async () => ({ getTracks: () => [track] }) } });
  expect(await record()).toBe("absent");
  expect(track.stop).toHaveBeenCalled();
});
