/** Reads codes with the camera, and takes in what they hold. Loaded when it is first used. */

import { openReader, type Reader } from "../handover/codes";
import type { Scan, ScanNews } from "../report/handed";
import type { RunningCore } from "./core";
import { takeItems } from "./handover";
import { openDetector, type Detector } from "./detecting";

/** Between two looks: a code stays on the other screen several times as long. */
const LOOK_MS = 120;

/** Show the camera in `video` and read codes until all of a run is here or `stop` is called. */
export async function scanCodes(
  core: RunningCore,
  video: HTMLVideoElement,
  onNews: (news: ScanNews) => void,
): Promise<Scan> {
  const stream = await camera();
  if (typeof stream === "string") {
    onNews({ news: "failed", why: stream });
    return { stop() {} };
  }
  let stopped = false;
  const stop = () => {
    stopped = true;
    for (const track of stream.getTracks()) track.stop();
    video.srcObject = null;
  };
  video.srcObject = stream;
  // The looks begin with the first picture, whether or not the browser ever says that it plays.
  void video.play().catch(() => {});
  onNews({ news: "looking" });
  const detector = await openDetector();
  void look(core, video, detector, () => stopped, onNews).finally(stop);
  return { stop };
}

async function camera(): Promise<MediaStream | "no-https" | "no-camera" | "not-allowed"> {
  // Browsers give the camera to trusted addresses only.
  if (!navigator.mediaDevices) return "no-https";
  try {
    const video = { facingMode: "environment", width: { ideal: 1280 }, height: { ideal: 720 } };
    return await navigator.mediaDevices.getUserMedia({ video, audio: false });
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return error.name === "NotAllowedError" || error.name === "SecurityError" ? "not-allowed" : "no-camera";
  }
}

async function look(
  core: RunningCore,
  video: HTMLVideoElement,
  detector: Detector,
  isStopped: () => boolean,
  onNews: (news: ScanNews) => void,
): Promise<void> {
  const reader = openReader();
  while (!isStopped()) {
    for (const text of await detector(video)) {
      const items = isStopped() ? null : tell(reader, text, onNews);
      if (!items) continue;
      onNews({ news: "taken", taken: await takeItems(core, items, []) });
      return;
    }
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
  }
}

/** Take one code; returns what the whole run holds once it is all here. */
function tell(reader: Reader, text: string, onNews: (news: ScanNews) => void): unknown[] | null {
  const read = reader.take(text);
  if (read.read === "whole") return read.items;
  if (read.read === "piece") onNews({ news: "piece", have: read.have, of: read.of });
  else onNews({ news: read.read });
  return null;
}
