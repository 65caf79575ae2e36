/** Voice notes beside a report or job; the code that records and plays comes when the first is shown. */

import type { VoiceNotesProps } from "../voice/VoiceNotes";
import { common } from "../words/common";
import { lazy } from "./lazy";

const VoiceNotes = lazy<VoiceNotesProps>(
  async () => (await import("../voice/VoiceNotes")).VoiceNotes,
  () => common.missing(common.voices),
);

/** Nothing where there is no note and none can be added. */
export function Voices(props: VoiceNotesProps) {
  return props.voices.length > 0 || props.onto !== undefined ? <VoiceNotes {...props} /> : null;
}
