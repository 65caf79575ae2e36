/** Words of what everybody is told of who may be believed. */

import { worded } from "../../kit/language";

export const told = worded("told", {
  rebuildTitle: "The log is being rebuilt",
  rebuild:
    "This log is being rebuilt. Until an owner ends it, managers' phones may bring back devices and entries that no signature here shows.",
  showDone: "Show what was brought",
  nothingDone: "Nothing was brought so far.",
  end: "End the rebuild",
  done: (act: string, what: string, name: string, time: string) => `${time}, ${name}: ${act} ${what}`.trim(),
  act: {
    device: "brought the key of device",
    trusted: "brought unsigned entries that the lost server had trusted, of event",
    review: "accepted the unsigned entry",
    ended: "ended the rebuild",
  } as Record<string, string>,
  secondTitle: "Invited again",
  second: (by: string, name: string, time: string) =>
    `${by} made a new join link for ${name}, who has a phone here already (${time}). If ${name} does not know of it, somebody else may speak as ${name}: block that phone.`,
  secondMine: (by: string, time: string) =>
    `${by} made a new join link in your name (${time}). If you do not know of it, somebody else may speak as you: have that phone blocked.`,
  joined: (device: string) => `A phone joined by it: ${device}.`,
  notJoined: "No phone joined by it yet.",
  byServer: "Whoever keeps the server",
  know: "I know of it",
});
