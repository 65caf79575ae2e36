/** One button that records: held, or tapped to start and tapped again. */

import { useRef } from "preact/hooks";
import type { Happening, Holding } from "../../report/holding";
import { Icon } from "../bits/Icon";
import { ProblemLine } from "../bits/Problem";
import { voice as words } from "../words/voice";
import { clock } from "./clock";
import { useRecorder } from "./useRecorder";

export function Recorder({ onKept }: { onKept: (note: Blob, seconds: number) => Promise<void> }) {
  const { now, seconds, level, busy, problem, happen } = useRecorder(onKept);
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
      <ProblemLine text={problem} />
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
