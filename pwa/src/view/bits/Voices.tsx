/** Voice notes beside a report or job; the code that records and plays comes when the first is shown. */

import type { VoiceNotesProps } from "../voice/VoiceNotes";
import { common } from "../words/common";
import { lazy } from "./lazy";

const VoiceNotes = lazy<VoiceNotesProps>(
  async () => (await import("../voice/VoiceNotes")).VoiceNotes,
  () => common.missing(common.voices),
);

/** Nothing where there is no note and none can be added. Where one can, the button's room is kept: nothing moves when it comes. */
export function Voices(props: VoiceNotesProps) {
  if (props.onto === undefined) return props.voices.length > 0 ? <VoiceNotes {...props} /> : null;
  return (
    <div class="voices-place">
      <VoiceNotes {...props} />
    </div>
  );
}
