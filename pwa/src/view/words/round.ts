/** Words of the walk round the car. */

import { worded } from "../../kit/language";

export const round = worded("round", {
  title: "Walk round the car",
  how: "Tick what is bad, then go on to the next place. Save once at the end: one report for each place with damage.",
  happened: "What happened?",
  happenedNote: "Puts all that must be inspected after it into the queue.",
  looked: (n: number, of: number) => `${n} of ${of} places done`,
  found: (n: number) => (n === 1 ? "1 finding" : `${n} findings`),
  next: (zone: string) => `Next: ${zone}`,
  save: (n: number) => (n === 0 ? "Save: nothing is ticked yet" : n === 1 ? "Save 1 finding" : `Save ${n} findings`),
  saving: "Keeping it …",
  needs: "Nothing is ticked yet. Tick what is bad, then save.",
  drop: "Start over",
  notKept: "This phone is full: the ticks last only while this page is open. Save now, then make room.",
  dropped: "The ticks are gone.",
  bringBack: "Bring them back",
  nothing: "Found nothing? Go back to Log and say that nothing was seen.",
});
