/** What the app says after a tap: what happened and what to do. Shown by the screens as it is. */

import { worded } from "./language";

export const messages = worded("said", {
  noStore: "This browser does not let the app keep anything: leave private browsing, or write it on paper.",
  newerStore:
    "A newer version of the app keeps this phone's reports: all are still here, but this older one can't open them. Close the app, and open it again where there is signal.",
  slowStore:
    "This phone's storage does not answer. Close the app and open it again, or restart the phone; what was logged is kept.",
  otherVersion: "A newer version of the app is open in another tab. Load this page again before going on.",
  putBack:
    "The browser threw away what the app kept. The reports are back; photos that were not sent are lost: take them again.",
  partNotHere: "This part of the app is not on this phone yet: nothing was done. Get signal, then tap again.",
  notHereToUndo: "This entry is not on this phone: nothing was undone.",
  undone: "Undone.",
  saved: "Saved on this phone.",
  savedReports: (n: number) => `Saved on this phone: ${n === 1 ? "1 report" : `${n} reports`}.`,
  amended: "Saved: the report reads so now.",
  withdrawn: "Withdrawn. It stays in the log.",
  nothingSeen: (stage: string) => `Saved: nothing seen on ${stage}.`,
  noReport: "This report is not on this phone: nothing was saved.",
  full: "This phone is full: nothing was saved. Make room, then save again.",
  writeFailed: "The phone could not write this: nothing was saved. Try again; write it on paper if it fails again.",
  nobodyJoined: "Nobody has joined on this phone: open a join link first. Nothing was saved.",
  carFirst: "Choose the car first: nothing was saved.",
  hasPin: (name: string) => `${name} has a PIN on this phone: change to ${name} in the top line.`,
  joinNoServer:
    "The server did not answer, and joining needs it. Get a signal or the van's network, then load this page again.",
  /** Why this phone may not say that the log holds nothing open. */
  notKnown: {
    own: "Calculated on this phone from what it holds: the server may know of more.",
    never: "No word from the server about this car yet.",
    unsent: (n: number) =>
      n === 1 ? "1 entry of this phone is not sent yet." : `${n} entries of this phone are not sent yet.`,
    cameIn: (clock: string) => `No word from the server since the car came in at ${clock}.`,
    wasDue: (service: string, clock: string) =>
      `The car was due in service ${service} at ${clock}, and there was no word from the server since.`,
    newer: (n: number) => `The queue on this phone is older than ${n} of the car's entries here.`,
  },
});
