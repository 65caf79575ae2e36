/** The phone's microphone, in whatever container the browser records. */

import { orElse } from "../../kit/patience";
import { loudness } from "./loudness";

/** By preference; a browser that knows none of them records in its own. */
const KINDS = ["audio/webm;codecs=opus", "audio/mp4", "audio/ogg;codecs=opus"];
/** A recorder that was told to stop hands over its last part within it. */
const END_MS = 5_000;
/** Speech is understood at it; a minute is 180 kB. */
const BITS_PER_SECOND = 24_000;

export interface Recording {
  /** How loud it is now, 0 to 1; null where this browser does not say. */
  level(): number | null;
  /** End it; null where nothing was recorded. */
  keep(): Promise<Blob | null>;
  /** End it and let what was said go. */
  drop(): void;
}

export type NoMicrophone = "refused" | "absent";

/** Begin to record, once the person has given leave; a word where that can't be. */
export async function record(): Promise<Recording | NoMicrophone> {
  if (!("MediaRecorder" in window) || !navigator.mediaDevices) return "absent";
  try {
    const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
    return begun(stream);
  } catch (error) {
    if (!(error instanceof DOMException)) throw error;
    return error.name === "NotAllowedError" ? "refused" : "absent";
  }
}

/** A browser may give its microphone and then not record it: the microphone is not left on. */
function begun(stream: MediaStream): Recording | "absent" {
  try {
    return recordingOf(stream);
  } catch (error) {
    letGo(stream);
    if (!(error instanceof DOMException)) throw error;
    return "absent";
  }
}

function letGo(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

function recordingOf(stream: MediaStream): Recording {
  const mimeType = KINDS.find((kind) => MediaRecorder.isTypeSupported(kind));
  const recorder = new MediaRecorder(stream, { mimeType, audioBitsPerSecond: BITS_PER_SECOND });
  const parts: Blob[] = [];
  recorder.ondataavailable = ({ data }) => parts.push(data);
  const ended = new Promise<void>((done) => {
    recorder.onstop = () => done();
  });
  recorder.start();
  const ear = earOf(stream);
  const end = () => {
    if (recorder.state !== "inactive") recorder.stop();
    letGo(stream);
    ear?.close();
  };
  return {
    level: () => ear?.level() ?? null,
    async keep() {
      end();
      // What is here already is better than a note that waits for its end for ever.
      await orElse(() => ended, undefined, END_MS);
      const whole = new Blob(parts, { type: recorder.mimeType });
      return whole.size > 0 ? whole : null;
    },
    drop: end,
  };
}

interface Ear {
  level(): number | null;
  close(): void;
}

/** Hear how loud it is; null where the browser can't. It is no part of the note, so that no note is lost for want of it. */
function earOf(stream: MediaStream): Ear | null {
  try {
    const context = new AudioContext();
    const analyser = context.createAnalyser();
    context.createMediaStreamSource(stream).connect(analyser);
    const heard = new Uint8Array(analyser.fftSize);
    const level = () => {
      // A context that does not run hears silence, which would be told of a voice that is there.
      if (context.state !== "running") return null;
      analyser.getByteTimeDomainData(heard);
      return loudness(heard);
    };
    let isOpen = true;
    const close = () => {
      if (isOpen) void context.close();
      isOpen = false;
    };
    return { level, close };
  } catch (error) {
    if (!(error instanceof DOMException || error instanceof ReferenceError)) throw error;
    return null;
  }
}
