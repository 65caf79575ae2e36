/** The voice notes about a report or job, to be played; where `onto` is given, with the button that adds one. */

import { useEffect, useRef, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import type { EventSetup } from "../../kit/api";
import type { Voice } from "../../report/voices";
import { Icon } from "../bits/Icon";
import { ProblemLine } from "../bits/Problem";
import { SendingMark } from "../bits/SendingMark";
import { usePending } from "../bits/usePending";
import { personName, timeOf } from "../labels";
import { common } from "../words/common";
import { voice as words } from "../words/voice";
import { clock } from "./clock";
import { Recorder } from "./Recorder";
import "./voice.css";

export interface VoiceNotesProps {
  voices: Voice[];
  setup: EventSetup;
  actions: Actions;
  /** The report or job that a new note is about; without it there is nothing to record. */
  onto?: string;
}

export function VoiceNotes({ voices, setup, actions, onto }: VoiceNotesProps) {
  return (
    <div class="stack">
      {voices.length > 0 && (
        <ul class="voices">
          {voices.map((voice) => (
            <Player key={voice.entry.id} voice={voice} setup={setup} actions={actions} />
          ))}
        </ul>
      )}
      {onto !== undefined && <Recorder onKept={(note, seconds) => actions.keepVoice(onto, note, seconds)} />}
    </div>
  );
}

interface PlayerProps {
  voice: Voice;
  setup: EventSetup;
  actions: VoiceNotesProps["actions"];
}

function Player({ voice: { entry, sending, may_undo }, setup, actions }: PlayerProps) {
  const sound = useRef<HTMLAudioElement | null>(null);
  const [isPlaying, setPlaying] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => () => letGo(sound.current), []);
  const length = clock(Number(entry.data.seconds ?? 0));
  const who = personName(setup, entry.person);
  const play = async () => {
    setProblem(null);
    if (!sound.current) {
      const blob = await actions.voiceSound(entry.data.voice);
      if (!blob) return setProblem(words.away);
      sound.current = new Audio(URL.createObjectURL(blob));
      sound.current.onended = () => setPlaying(false);
    }
    try {
      await sound.current.play();
      setPlaying(true);
    } catch (error) {
      // A container that this browser does not know, or a sound that is torn.
      if (!(error instanceof DOMException)) throw error;
      setProblem(words.broken);
    }
  };
  const pause = () => {
    sound.current?.pause();
    setPlaying(false);
  };
  return (
    <li>
      <div class="row">
        <button
          type="button"
          class="button"
          aria-label={isPlaying ? words.pause(who) : words.play(who, length)}
          onClick={isPlaying ? pause : play}
        >
          <Icon name={isPlaying ? "pause" : "play"} />
          {length}
        </button>
        <span>
          {who} {timeOf(setup, entry.at)}
        </span>
        {sending !== "sent" && <SendingMark sending={sending} />}
        {may_undo && (
          <TakeBack
            name={words.takeBackOf(who, length)}
            onTakeBack={() => actions.voidEntry(entry.id, common.undoReason)}
          />
        )}
      </div>
      <ProblemLine text={problem} />
    </li>
  );
}

/** Taken back for good, so one tap by a glove is not enough. */
function TakeBack({ name, onTakeBack }: { name: string; onTakeBack: () => Promise<void> }) {
  const [isAsked, setAsked] = useState(false);
  const { busy, problem, run } = usePending();
  return (
    <>
      <button
        type="button"
        class="button"
        aria-disabled={busy}
        aria-label={isAsked ? undefined : name}
        onClick={() => (isAsked ? run(onTakeBack) : setAsked(true))}
        onBlur={() => setAsked(false)}
      >
        {isAsked ? words.takeBackSure : words.takeBack}
      </button>
      <ProblemLine text={problem} />
    </>
  );
}

function letGo(sound: HTMLAudioElement | null): void {
  if (!sound) return;
  sound.pause();
  URL.revokeObjectURL(sound.src);
}
