/** Words of the briefing card at service out. */

import { worded } from "../../kit/language";

export const briefing = worded("briefing", {
  title: "Briefing",
  link: "Briefing at service out",
  of: (car: string, service: string) => `Car ${car}, leaving service ${service}`,
  none: "No briefing of this car was given on this phone.",
  noneNote: "It is read in service, before the belts are on. What was read then stays here.",
  kept: (time: string) => `As it was in service at ${time}. Nothing newer is shown here.`,
  log: "It says what the log holds, no more. Event officials, local rules and licensed practice decide.",
  done: "Done",
  doneNone: "Nothing was recorded as finished in this service.",
  notDone: "Not done",
  notDoneNone: "Nothing else is open in the log.",
  watch: "Watch",
  watchNone: "Nothing was patched, passed for a time or left to you.",
  why: {
    temporary: "patched for now: check it after each stage",
    road: "left to you, on the road",
  } as Record<string, string>,
  until: (service: string) => `passed only until service ${service}: have it inspected before then`,
  toNext: "left for the next service",
  look: { needed: "not inspected yet", failed: "an inspection failed it" } as Record<string, string>,
  aboard: "Aboard",
  aboardNone: "No part was put aboard for you.",
  tools: "Tools",
  hold: "The log holds this car.",
  nothing: "Nothing open in the log holds this car.",
  unknown: "Not known here what the log holds.",
  told: "Who was told",
  toldAt: (role: string, name: string, time: string) => `${role}: ${name} was told at ${time}.`,
  toldBefore: (role: string, name: string, time: string) =>
    `${role}: ${name} was told at ${time}, and the log has changed since. Tell it again.`,
  tap: (name: string) => `${name} was told`,
  role: { driver: "Driver", "co-driver": "Co-driver" } as Record<string, string>,
  notTold: (role: string) => `${role}: not told yet.`,
  elsewhere: (names: string) => `${names} taps on their own phone: Service, then Briefing.`,
});
