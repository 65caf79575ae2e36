/** Words of marking a place on a photo. */

import { worded } from "../../kit/language";

export const ring = worded("ring", {
  title: "Mark the place",
  how: "Tap the place on the photo, or drag the ring there.",
  which: "Which photo",
  photo: (n: number) => `Photo ${n}`,
  alt: "The photo with the ring as it will be kept",
  larger: "Larger",
  smaller: "Smaller",
  turn: "Turn the photo",
  again: "Start again",
  sliders: "Place it with sliders",
  x: "Ring from the left",
  y: "Ring from the top",
  across: "Size of the ring",
  percent: (n: number) => `${n} %`,
  save: "Keep the marked photo",
  saving: "Drawing it …",
  leave: "Leave it unmarked",
  needs: "The ring has not been placed yet. Tap the place on the photo, then keep it.",
  stays: "It becomes a new photo; this one stays as it is.",
});
