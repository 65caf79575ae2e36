/** Codes are found with the browser's own detector where it works, else in plain JavaScript. */

import encodeQR from "qr";
import { afterEach, expect, test, vi } from "vitest";
import { decoded, openDetector } from "../src/flow/detecting";

const TEXT = "SB1:A PICTURE OF THIS";
const video = { videoWidth: 1280, videoHeight: 720 } as HTMLVideoElement;

function picture(text: string) {
  const modules = encodeQR(text, "raw", { ecc: "medium", border: 4 });
  const side = modules.length * 5;
  const data = new Uint8ClampedArray(side * side * 4).fill(255);
  for (let at = 0; at < side * side; at++) {
    if (modules[Math.floor(at / side / 5)]?.[Math.floor((at % side) / 5)]) data.fill(0, at * 4, at * 4 + 3);
  }
  return { width: side, height: side, data };
}

/** A page whose canvas always shows one picture, whatever was drawn on it. */
function showing(text: string) {
  const sizes: number[] = [];
  const context = {
    drawImage: (_: unknown, ...size: number[]) => sizes.push(...size),
    getImageData: () => picture(text),
  };
  vi.stubGlobal("document", { createElement: () => ({ getContext: () => context }) });
  return sizes;
}

function detector(formats: string[], detect: () => Promise<{ rawValue: string }[]>) {
  class Own {
    static getSupportedFormats = async () => formats;
    detect = detect;
  }
  vi.stubGlobal("BarcodeDetector", Own);
}

afterEach(() => vi.unstubAllGlobals());

test("a picture of a code is read, one without shows none", () => {
  expect(decoded(picture(TEXT))).toEqual([TEXT]);
  const blank = picture(TEXT);
  blank.data.fill(200);
  expect(decoded(blank)).toEqual([]);
});

test("a browser without a detector reads the canvas, shrunk to what is needed", async () => {
  const sizes = showing(TEXT);
  expect(await (await openDetector())(video)).toEqual([TEXT]);
  expect(sizes).toEqual([0, 0, 900, 506]);
});

test("a camera that shows nothing yet is not read", async () => {
  showing(TEXT);
  expect(await (await openDetector())({ videoWidth: 0, videoHeight: 0 } as HTMLVideoElement)).toEqual([]);
});

test("the browser's own detector is used where it knows QR codes, and may find several", async () => {
  showing("SB1:PLAIN");
  detector(["ean_13", "qr_code"], async () => [{ rawValue: "SB1:ONE" }, { rawValue: "SB1:TWO" }]);
  expect(await (await openDetector())(video)).toEqual(["SB1:ONE", "SB1:TWO"]);
});

test("one that knows other codes only is passed over", async () => {
  showing("SB1:PLAIN");
  detector(["ean_13"], async () => [{ rawValue: "SB1:OWN" }]);
  expect(await (await openDetector())(video)).toEqual(["SB1:PLAIN"]);
});

test("one that fails is asked once, from then on the plain one looks", async () => {
  showing("SB1:PLAIN");
  let asked = 0;
  detector(["qr_code"], async () => {
    asked++;
    throw new DOMException("Barcode detection service unavailable.", "NotSupportedError");
  });
  const look = await openDetector();
  expect([await look(video), await look(video)]).toEqual([["SB1:PLAIN"], ["SB1:PLAIN"]]);
  expect(asked).toBe(1);
});
