/** Finds QR codes in a picture: with the browser's own detector where it has one, else in plain JavaScript. */

import decodeQR from "qr/decode.js";
import { orElse } from "../kit/patience";

/** Returns the texts of the codes that a camera's picture shows now. */
export type Detector = (video: HTMLVideoElement) => Promise<string[]>;

/** W3C draft "Accelerated Shape Detection in Images": not in every browser, nor always with QR codes. */
interface BarcodeDetectorLike {
  detect(source: CanvasImageSource): Promise<{ rawValue: string }[]>;
}
interface BarcodeDetectorMaker {
  new (options: { formats: string[] }): BarcodeDetectorLike;
  getSupportedFormats(): Promise<string[]>;
}

/** Some detectors are a part of the system that has to be fetched first, and may never come. */
const PATIENCE_MS = 2_000;

/** More gives no better reading of a code that fills the picture, and takes longer. */
const LONGEST_PX = 900;

/** Return the browser's own detector, else the plain one. */
export async function openDetector(): Promise<Detector> {
  const own = await orElse(ownDetector, null, PATIENCE_MS);
  return own ? withFallback(own, plainDetector()) : plainDetector();
}

async function ownDetector(): Promise<BarcodeDetectorLike | null> {
  const { BarcodeDetector: Maker } = globalThis as { BarcodeDetector?: BarcodeDetectorMaker };
  const formats = (await Maker?.getSupportedFormats()) ?? [];
  return Maker && formats.includes("qr_code") ? new Maker({ formats: ["qr_code"] }) : null;
}

/** Some phones say that they can and then can't: from then on the plain one looks. */
function withFallback(own: BarcodeDetectorLike, plain: Detector): Detector {
  let works = true;
  return async (video) => {
    if (!works) return plain(video);
    const found = await orElse(() => own.detect(video), null, PATIENCE_MS);
    if (found) return found.map((one) => one.rawValue);
    works = false;
    return plain(video);
  };
}

function plainDetector(): Detector {
  const canvas = document.createElement("canvas");
  const context = canvas.getContext("2d", { willReadFrequently: true });
  return async (video) => {
    const { videoWidth, videoHeight } = video;
    if (!context || videoWidth === 0) return [];
    const scale = Math.min(1, LONGEST_PX / Math.max(videoWidth, videoHeight));
    canvas.width = Math.round(videoWidth * scale);
    canvas.height = Math.round(videoHeight * scale);
    context.drawImage(video, 0, 0, canvas.width, canvas.height);
    return decoded(context.getImageData(0, 0, canvas.width, canvas.height));
  };
}

/** Return the text of the code that a picture shows, none where it shows none that can be read. */
export function decoded(picture: { width: number; height: number; data: Uint8ClampedArray }): string[] {
  try {
    return [decodeQR(picture)];
  } catch (error) {
    // The decoder says with an error that it found nothing.
    if (error instanceof Error) return [];
    throw error;
  }
}
