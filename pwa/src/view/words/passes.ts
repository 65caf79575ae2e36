/** Words of the page of inspections that do not count, and of what a manager is told once of an older release. */

import { worded } from "../../kit/language";

export const passes = worded("passes", {
  title: "Inspections that do not count",
  link: "Inspections that do not count",
  linkAbout: "signed as passed, and why they cover less",
  how: "Each was signed as passed and does not cover all that it names. It stays in the log. What it does not cover holds the car until an inspector signs again.",
  notFor: "This page is for mechanics, inspectors and managers.",
  heard: (time: string) => `As the server had it at ${time}.`,
  none: "None",
  noneAbout: "Every inspection that was signed as passed covers all that it names.",
  notHere: "Not on this phone yet",
  notHereAbout: "The server lists them. Open this page once with signal; then it is kept on this phone.",
  open: "Still to be inspected",
  since: (n: number) => `Inspected since, or not safety-critical (${n})`,
  signed: (name: string, time: string) => `Signed by ${name}, ${time}`,
  before: "counted in version 0.1",
  about: (what: string[]) => `Not covered: ${what.join(", ")}`,
  report: (name: string, time: string) => `report by ${name}, ${time}`,
  repair: (name: string, time: string) => `repair by ${name}, ${time}`,
  inspection: (name: string, time: string) => `failed inspection by ${name}, ${time}`,
  why: {
    "not-inspector": (name: string) => `${name} is not an inspector at this event.`,
    "unfinished-work": (name: string) => `${name} started work on this job, and no finished repair includes it.`,
    "until-begun": (_: string, until: string) => `It was good until service ${until}, which has begun.`,
    "no-check-ok": () => "None of its checks is OK.",
    "must-check": (_name: string, _until: string, checks: string) => `Must be OK, and is not: ${checks}.`,
    "no-official": () => "For the safety cage, which official saw it and what they decided is missing.",
    "own-repair": (name: string) => `${name} repaired it. Somebody else has to inspect it.`,
    "own-work-undone": (name: string) =>
      `${name} worked on it and took that entry back. It still counts as having worked on it.`,
    "too-bad": () => "It is worse than may be accepted without a repair. Repair it first.",
    bent: () => "It is bent, and no service is named that the inspection is good until.",
    temporary: () => "The repair is temporary, and no service is named that the inspection is good until.",
    "check-not-ok": (_name: string, _until: string, checks: string) => `It counts as failed. Not OK: ${checks}.`,
    gone: () => "What it names was reported another way since, or taken back.",
  } as Record<string, (name: string, until: string, checks: string) => string>,
  told: {
    title: "Inspections of version 0.1",
    text: "The rules are stricter now. These inspections counted in version 0.1 and no longer do; each car is on hold until they are made again.",
    of: (car: string, n: number) => `Show ${car}: ${n === 1 ? "1 inspection" : `${n} inspections`}`,
    close: "Close",
  },
});
