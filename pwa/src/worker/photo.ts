/** Shrinks a photo off the page's thread: upright, at most 1600 px, JPEG, with no EXIF and so no place or name in it. */

import type { ShrinkAsk, ShrinkReply } from "../kit/shrink";

declare const self: DedicatedWorkerGlobalScope;

const LONGEST_PX = 1600;
const QUALITY = 0.8;

self.onmessage = async (event: MessageEvent<ShrinkAsk>) => {
  try {
    const reply = await shrink(event.data.file, event.data.longest_px ?? LONGEST_PX);
    self.postMessage(reply, "bytes" in reply ? [reply.bytes] : []);
  } catch (error) {
    // The worker's outermost edge: whatever a decoder throws, the page gets a sentence and goes on.
    const why = error instanceof Error ? error.message : String(error);
    self.postMessage({ failed: `This picture can't be read (${why}). Take it again as a JPEG.` } satisfies ShrinkReply);
  }
};

async function shrink(file: Blob, longest_px: number): Promise<ShrinkReply> {
  // Hidden on plain http: without its hash a photo has no name to go by.
  if (!crypto.subtle) return { failed: "Photos need the https address of the server. Save the report without it." };
  const whole = await createImageBitmap(file, { imageOrientation: "from-image" });
  const scale = Math.min(1, longest_px / Math.max(whole.width, whole.height));
  const width = Math.max(1, Math.round(whole.width * scale));
  const height = Math.max(1, Math.round(whole.height * scale));
  const blob = await drawn(whole, width, height);
  // A browser that can't encode the type asked for gives a PNG and says nothing.
  if (blob.type !== "image/jpeg")
    return { failed: "This browser can't make a JPEG. Save the report without the photo." };
  const bytes = await blob.arrayBuffer();
  return { bytes, type: "image/jpeg", sha256: await sha256(bytes), width, height };
}

async function drawn(whole: ImageBitmap, width: number, height: number): Promise<Blob> {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext("2d", { alpha: false });
  if (!context) throw new Error("no room to draw it");
  context.drawImage(whole, 0, 0, width, height);
  whole.close();
  return canvas.convertToBlob({ type: "image/jpeg", quality: QUALITY });
}

async function sha256(bytes: ArrayBuffer): Promise<string> {
  const hash = await crypto.subtle.digest("SHA-256", bytes);
  return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, "0")).join("");
}
