/** Words of the wall board: few and short, since they are read from the other end of the tent. */

import { worded } from "../../kit/language";

const more = {
  now: (n: number) => (n === 1 ? "1 more person" : `${n} more people`),
  next: (n: number) => (n === 1 ? "1 more task" : `${n} more tasks`),
  reports: (n: number) => (n === 1 ? "1 more report" : `${n} more reports`),
};

export const board = worded("board", {
  title: "Board",
  link: "Board for the wall",
  titles: { status: "The car", now: "Who is on what", next: "What comes next", reports: "Newest reports" },
  noHold: "No hold in the log",
  holds: (n: number) => (n === 1 ? "1 reason" : `${n} reasons`),
  left: (min: number) => `${min} min left`,
  dueNow: "Due out now",
  over: (min: number) => `${min} min past due`,
  longOver: "Over 1 h past due",
  out: (clock: string) => `Out ${clock}`,
  notIn: "Not in service",
  due: (clock: string) => `In ${clock}`,
  noClock: "No due time",
  afterwards: (what: string) => `next: ${what}`,
  next: "Next",
  fresh: "New",
  nobody: "Nobody has started a task",
  nothingMore: "nothing more",
  nothingNext: "Nothing comes next",
  queueUnknown: "Queue not here yet",
  noReports: "No reports",
  andMore: (said: string, n: number) => `${said} and ${n} more`,
  /** What crews call the corners: common practice, no source. By the zones' names in the set-up. */
  corners: { "front-left": "FL", "front-right": "FR", "rear-left": "RL", "rear-right": "RR" } as Record<string, string>,
  /** "and 2 more people, 7 more tasks": what has no room. */
  hidden(counts: { now: number; next: number; reports: number }): string {
    const said = (["now", "next", "reports"] as const).filter((part) => counts[part] > 0);
    return said.length === 0 ? "" : `and ${said.map((part) => more[part](counts[part])).join(", ")}`;
  },
  seen: (n: number) => (n === 1 ? "1 new: seen" : `${n} new: seen`),
  full: "Full screen",
  leaveFull: "Leave full screen",
  back: "Back to service",
  planOld: "A report came after this plan was made: plan again.",
  noPlan: "No plan on this device: the queue's order.",
  awake: "The screen stays on.",
  asleep: "This browser may let the screen go dark: turn that off in the device's own settings.",
});
