/** One button that records: held, or tapped to start and tapped again. */

import { useEffect, useRef, useState } from "preact/hooks";
import { after, type Happening, type Holding, IDLE, LONGEST_MS } from "../../report/holding";
import { Icon } from "../bits/Icon";
import { ProblemLine } from "../bits/Problem";
import { usePending } from "../bits/usePending";
import { voice as words } from "../words/voice";
import { clock } from "./clock";
import { record, type Recording } from "./microphone";

const LOOK_MS = 200;

export function Recorder({ onKept }: { onKept: (note: Blob, seconds: number) => Promise<void> }) {
  const [now, setNow] = useState<Holding>(IDLE);
  const [seconds, setSeconds] = useState(0);
  const [level, setLevel] = useState<number | null>(null);
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

  useEffect(() => {
    if (now.at !== "recording") return;
    const timer = setInterval(() => {
      setSeconds((Date.now() - now.since_ms) / 1000);
      setLevel(recording.current?.level() ?? null);
      happen("clock");
    }, LOOK_MS);
    return () => {
      clearInterval(timer);
      setSeconds(0);
      setLevel(null);
    };
  }, [now]);
  // Whoever goes to another screen is not recorded there.
  useEffect(() => () => recording.current?.drop(), []);

  return (
    <div class="stack">
      <HoldButton isRecording={now.at === "recording"} isBusy={busy} onHappen={happen}>
        {busy ? words.keeping : said(now, seconds)}
      </HoldButton>
      {level !== null && (
        <div class="level" aria-hidden="true">
          <div style={{ width: `${Math.round(level * 100)}%` }} />
        </div>
      )}
      <p class="unseen" role="status">
        {now.at === "recording" ? words.recording : ""}
      </p>
      <ProblemLine text={problem ?? told} />
    </div>
  );
}

function said(now: Holding, seconds: number): string {
  if (now.at === "idle") return words.record;
  if (now.at === "asking") return words.asking;
  return now.held ? words.held(clock(seconds)) : words.going(clock(seconds));
}

interface HoldButtonProps {
  isRecording: boolean;
  isBusy: boolean;
  onHappen: (what: Happening) => void;
  children: string;
}

/** Finger, keys, and what sends nothing but a click (a switch, a screen reader) each press and let go. */
function HoldButton({ isRecording, isBusy, onHappen, children }: HoldButtonProps) {
  const byHand = useRef(false);
  const press = () => {
    byHand.current = true;
    if (!isBusy) onHappen("pressed");
  };
  const isPress = ({ key }: KeyboardEvent) => key === "Enter" || key === " ";
  return (
    <button
      type="button"
      class={isRecording ? "button wide hold recording" : "button wide hold"}
      aria-pressed={isRecording}
      aria-disabled={isBusy}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        press();
      }}
      onPointerUp={() => onHappen("released")}
      onPointerCancel={() => onHappen("released")}
      onContextMenu={(event) => event.preventDefault()}
      onKeyDown={(event) => isPress(event) && !event.repeat && press()}
      onKeyUp={(event) => isPress(event) && onHappen("released")}
      onClick={() => {
        const wasByHand = byHand.current;
        byHand.current = false;
        if (wasByHand) return;
        press();
        byHand.current = false;
        onHappen("released");
      }}
    >
      <Icon name="microphone" />
      <span>{children}</span>
    </button>
  );
}
