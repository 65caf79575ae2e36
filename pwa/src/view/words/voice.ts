/** Words of voice notes. */

import { worded } from "../../kit/language";

export const voice = worded("voice", {
  record: "Voice note: hold or tap",
  asking: "Asking for the microphone …",
  held: (clock: string) => `Recording ${clock}. Let go to keep it`,
  going: (clock: string) => `Recording ${clock}. Tap to keep it`,
  recording: "Recording.",
  keeping: "Keeping it …",
  allowed: "The microphone may be used now. Hold the button and speak.",
  ended: "A minute is the most: that part is kept. Begin another for the rest.",
  silent: "Nothing was recorded. Hold the button and try again, or write a note.",
  refused: "The app may not use the microphone. Allow it in the phone's settings for this page, or write a note.",
  absent: "This phone or browser can't record here. Write a note instead.",
  play: (who: string, clock: string) => `Play voice note of ${who}, ${clock}`,
  pause: (who: string) => `Pause voice note of ${who}`,
  takeBack: "Take back",
  takeBackOf: (who: string, clock: string) => `Take back voice note of ${who}, ${clock}`,
  takeBackSure: "Tap again to take it back",
  away: "This voice note is not on this phone, and the server can't give it now. Try when it is in reach.",
  broken: "This phone can't play the voice note. Try another phone.",
});
