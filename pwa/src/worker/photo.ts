/** Makes a photo to keep off the page's thread: upright, at most 1600 px, marked if asked, JPEG, with no EXIF and so no place or name in it. */

import { COLOURS, circleOf, type Marking, type Ring, type Size, seenAs, turning } from "../kit/ring";
import type { ShrinkAsk, ShrinkReply } from "../kit/shrink";

declare const self: DedicatedWorkerGlobalScope;

const LONGEST_PX = 1600;
const QUALITY = 0.8;

self.onmessage = async (event: MessageEvent<ShrinkAsk>) => {
  try {
    const reply = await shrink(event.data);
    self.postMessage(reply, "bytes" in reply ? [reply.bytes] : []);
  } catch (error) {
    // The worker's outermost edge: whatever a decoder throws, the page gets a sentence and goes on.
    const why = error instanceof Error ? error.message : String(error);
    self.postMessage({ failed: "unreadable", why } satisfies ShrinkReply);
  }
};

async function shrink({ file, longest_px = LONGEST_PX, marking }: ShrinkAsk): Promise<ShrinkReply> {
  // Hidden on plain http: without its hash a photo has no name to go by.
  if (!crypto.subtle) return { failed: "no-https" };
  const whole = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, longest_px / Math.max(whole.width, whole.height));
  const upright = {
    width: Math.max(1, Math.round(whole.width * scale)),
    height: Math.max(1, Math.round(whole.height * scale)),
  };
  const { width, height } = seenAs(upright, marking?.turn ?? 0);
  const blob = await drawn(whole, upright, marking);
  // A browser that can't encode the type asked for gives a PNG and says nothing.
  if (blob.type !== "image/jpeg") return { failed: "no-jpeg" };
  const bytes = await blob.arrayBuffer();
  return { bytes, type: "image/jpeg", sha256: await sha256(bytes), width, height };
}

async function drawn(whole: ImageBitmap, upright: Size, marking?: Marking): Promise<Blob> {
  const seen = seenAs(upright, marking?.turn ?? 0);
  const canvas = new OffscreenCanvas(seen.width, seen.height);
  const context = canvas.getContext("2d", { alpha: false });
  if (!context) throw new Error("no room to draw it");
  const { x, y, degrees } = turning(upright, marking?.turn ?? 0);
  context.translate(x, y);
  context.rotate((degrees * Math.PI) / 180);
  context.drawImage(whole, 0, 0, upright.width, upright.height);
  whole.close();
  context.resetTransform();
  if (marking) drawRing(context, marking.ring, seen);
  return canvas.convertToBlob({ type: "image/jpeg", quality: QUALITY });
}

function drawRing(context: OffscreenCanvasRenderingContext2D, ring: Ring, seen: Size): void {
  const { x, y, radius, white, black } = circleOf(ring, seen);
  context.beginPath();
  context.arc(x, y, radius, 0, 2 * Math.PI);
  for (const [colour, wide] of [
    [COLOURS.edge, black],
    [COLOURS.line, white],
  ] as const) {
    context.strokeStyle = colour;
    context.lineWidth = wide;
    context.stroke();
  }
}

async function sha256(bytes: ArrayBuffer): Promise<string> {
  const hash = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
