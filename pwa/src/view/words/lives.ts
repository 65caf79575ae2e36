/** Words of the parts that have a life. */

import { worded } from "../../kit/language";

export const lives = worded("lives", {
  title: "Parts with a life",
  about: "Counted over all events that the server holds. The team's own limits; the log changes no job by them.",
  none: "The set-up gives no part a life. A manager adds them under Set-up, Lives.",
  notHere: "No answer on this phone yet. It comes when the server answers.",
  heard: (time: string) => `By the server at ${time}`,
  due: (n: number) => (n === 1 ? "1 part due" : `${n} parts due`),
  nearly: (n: number) => (n === 1 ? "1 nearly due" : `${n} nearly due`),
  all: "All parts with a life",
  state: {
    due: "Due",
    nearly: "Nearly due",
    "not-known": "Not known when fitted",
    within: "Within its life",
  },
  mustDo: "must do",
  unit: { events: "events", stage_km: "stage km", days: "days" },
  used: (used: string, limit: string, unit: string, atLeast: boolean) =>
    `${atLeast ? "at least " : ""}${used} of ${limit} ${unit}`,
  byEnd: (used: string) => `${used} by the end of this event`,
  notKnown: (limit: string, unit: string) => `lasts ${limit} ${unit}`,
  serial: (serial: string) => `No. ${serial}`,
  began: { fitted: "Fitted", replaced: "Replaced", renewed: "Renewed in the plan", rebuilt: "Rebuilt" },
  notBegan: "The log does not say when it was fitted.",
  found: (condition: string, stage: string | null, day: string, event: string) =>
    `${condition}${stage ? ` at ${stage}` : ""}, ${day}, ${event}`,
  done: (action: string, day: string, event: string) => `${action}, ${day}, ${event}`,
  story: "What happened to it",
  takes: (action: string, minutes: string) => `${action}, ${minutes} min`,
  cost: (amount: string) => `Renewing it: ${amount}`,
  noRow: "No row of the rate table renews it.",
  record: "Fitted …",
  recordOf: (part: string) => `Fitted: ${part}`,
  serialField: "Serial or tag, if it has one",
  rebuilt: "Rebuilt: its life begins again",
  since: "Its life counts from, if not from now",
  inspected: "Saved as a repair: it then waits for an inspection.",
  notRepair: "With a day given, only the day is recorded, no repair.",
  open: "A job is open here: finish that, and its life counts from then.",
  toJob: "To the job",
  badDay: "That is no day up to today: choose it again, or leave it empty.",
  save: "Save",
  cancel: "Cancel",
});
