/** Words of the screen that leads to all that has no tab of its own. */

import { worded } from "../../kit/language";

export const more = worded("more", {
  title: "More",
  groups: { work: "The car", office: "The office", phone: "This phone" } as Record<string, string>,
  /** What each screen is for, by its name in the address. */
  about: {
    queue: ["Queue", "what is open, by place"],
    service: ["Service", "time in, time out, the next task"],
    log: ["Log a hit", "tap where it is"],
    round: ["Walk round the car", "place after place, saved at the end"],
    reports: ["Reports", "what was said, sent and not sent"],
    incidents: ["Incidents", "a hit and its reports, property, others"],
    plan: ["Plan", "who does what, by the clock"],
    team: ["Team plan", "all cars, one crew, one clock"],
    board: ["Board for the wall", "read across the tent"],
    briefing: ["Briefing", "what the crew is told before it leaves"],
    retired: ["Retired, restart", "where it stopped, ready by when"],
    arrival: ["Driver debrief", "seven questions at the time in"],
    readings: ["Readings", "pads, tread, oil, temperatures"],
    lives: ["Parts with a life", "by events, km and days: what is due"],
    turn: ["Between two turns", "who drives next"],
    documents: ["Documents", "job sheet, record, scrutineering list"],
    costs: ["Costs", "estimate, actual, adjustments"],
    statement: ["Statement", "what the customer is charged"],
    season: ["Season", "minutes observed, parts to carry"],
    walk: ["Hand-over", "the walk round before and after"],
    setup: ["Set-up", "events, people, rates, agreements"],
    aside: ["Needs review", "entries that the server did not take"],
    codes: ["Send by QR code", "to another phone, without a network"],
    handover: ["Receive from another phone", "by code or file, without a network"],
    passes: ["Inspections that do not count", "signed as passed, and why not"],
    looks: ["Check lists", "what an inspection goes through"],
    me: ["Me and this phone", "PIN, theme, language, storage"],
    about: ["About", "what this is, and what it is not"],
  } as Record<string, readonly [string, string]>,
});
