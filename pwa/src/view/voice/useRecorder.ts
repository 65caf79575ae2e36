/** What records a voice note: asked for, running, kept or dropped. */

import { useEffect, useRef, useState } from "preact/hooks";
import { after, type Happening, type Holding, IDLE, LONGEST_MS } from "../../report/holding";
import { usePending } from "../bits/usePending";
import { voice as words } from "../words/voice";
import { record, type Recording } from "./microphone";

const LOOK_MS = 200;

export interface Recorder {
  now: Holding;
  /** How long it has recorded. */
  seconds: number;
  /** How loud it is now, 0 to 1; null while nothing is measured. */
  level: number | null;
  /** It is being kept. */
  busy: boolean;
  /** What went wrong, or what is to be known, in words. */
  problem: string | null;
  happen(what: Happening): void;
}

export function useRecorder(onKept: (note: Blob, seconds: number) => Promise<void>): Recorder {
  const [now, setNow] = useState<Holding>(IDLE);
  const [told, setTold] = useState<string | null>(null);
  const { busy, problem, run } = usePending();
  const held = useRef<Holding>(IDLE);
  const recording = useRef<Recording | null>(null);

  const happen = (what: Happening) => {
    const before = held.current;
    const [next, deed] = after(before, what, Date.now());
    held.current = next;
    setNow(next);
    if (deed === "ask") void ask();
    if (deed === "drop") {
      recording.current?.drop();
      setTold(words.allowed);
    }
    if (deed === "keep" && before.at === "recording") run(() => keep(Date.now() - before.since_ms));
  };
  const ask = async () => {
    setTold(null);
    const answer = await record();
    if (typeof answer === "string") {
      setTold(words[answer]);
      return happen("refused");
    }
    recording.current = answer;
    happen("granted");
  };
  const keep = async (length_ms: number) => {
    const note = (await recording.current?.keep()) ?? null;
    recording.current = null;
    if (!note) return setTold(words.silent);
    if (length_ms >= LONGEST_MS) setTold(words.ended);
    await onKept(note, Math.round(length_ms / 100) / 10);
  };
  const meter = useMeter(now, () => recording.current, happen);
  // Whoever goes to another screen is not recorded there.
  useEffect(() => () => recording.current?.drop(), []);
  return { now, ...meter, busy, problem: problem ?? told, happen };
}

/** How long and how loud, looked at several times a second while it records. */
function useMeter(now: Holding, recording: () => Recording | null, happen: (what: Happening) => void) {
  const [seconds, setSeconds] = useState(0);
  const [level, setLevel] = useState<number | null>(null);
  useEffect(() => {
    if (now.at !== "recording") return;
    const timer = setInterval(() => {
      setSeconds((Date.now() - now.since_ms) / 1000);
      setLevel(recording()?.level() ?? null);
      happen("clock");
    }, LOOK_MS);
    return () => {
      clearInterval(timer);
      setSeconds(0);
      setLevel(null);
    };
  }, [now]);
  return { seconds, level };
}
