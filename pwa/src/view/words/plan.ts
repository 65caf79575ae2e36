/** Words of the service plan: asking for it, lanes, what is left out, what minutes and hands buy, the sheet. */

import { worded } from "../../kit/language";

const minutes = (n: number) => (n === 1 ? "1 minute" : `${n} minutes`);
const seconds = (n: number) => (n === 1 ? "1 second" : `${n} seconds`);
const timesInTen = (n: number) =>
  n >= 10
    ? "more than 99 times in 100"
    : n === 0
      ? "less than once in 10"
      : n === 1
        ? "once in 10"
        : `${n} times in 10`;

export const plan = worded("plan", {
  title: "Plan",
  short: "Plan",
  toPlan: "Plan this service",
  back: "Back to the plan",
  which: "Which service",
  onlyCrew: "The plan is for those who work on the car: mechanics, inspectors and the manager.",
  allDone: "All services of this event are done.",
  none: (service: string) => `No plan of service ${service} is on this phone yet. Say who is there, then plan it.`,
  overnight: (clock: string) => `Restart, ready by ${clock}`,
  noneOvernight: (clock: string) =>
    `No plan of the work until ${clock} is on this phone yet. Say who is there, then plan it.`,
  ask: {
    again: "Plan with other people or minutes",
    mechanics: "Mechanics",
    mechanicsNote: (names: string) => `Working: ${names}. Inspectors are always counted.`,
    minutes: "Minutes, control to control",
    away: "Who is away",
    awayHow: (name: string) => `How long is ${name} away?`,
    awayAtFirst: "At first",
    awayForAll: "All of it",
    nobody: "Everybody is away: nobody is left to work.",
    awayUntil: (name: string) => `${name} is there from minute`,
    button: (service: string) => `Plan service ${service}`,
    buttonOvernight: (clock: string) => `Plan until ${clock}`,
    asking: "Planning …",
  },
  elsewhere: (service: string) => `The car is in service ${service}.`,
  showService: (service: string) => `Show service ${service}`,
  workedOut: (time: string) => `Made at ${time}`,
  notIn: (time: string) => `The car is not in yet: by the itinerary at work from ${time}.`,
  noClock: "The car is not in yet, and the itinerary names no time: the clock below counts from when it comes in.",
  stale: "The queue has changed since: plan again.",
  staleButton: "Plan again",
  refresh: "Plan the rest from now",
  greedy: "Quick plan. Improving …",
  greedyOnly: "Quick plan, without the solver's answer. A better plan may exist.",
  unsettled: "What more minutes and hands buy is still being calculated.",
  proven: "Proven: no plan does more in this time.",
  notProven: "Not proven: a better plan may exist.",
  onTime: (times: number) => `On time: ${timesInTen(times)}.`,
  byThen: (times: number) => `Out by then: ${timesInTen(times)}.`,
  timesInTen,
  likely: (time: string) => `Likely ready at ${time}.`,
  late: (min: number, penalty_s: number) =>
    `What holds the car does not fit: out ${minutes(min)} late, ${penalty_s === 0 ? "no penalty" : `a penalty of ${seconds(penalty_s)}`} by this event's rules.`,
  nextMine: "Your next task",
  nowMine: "Your task now",
  nothingNext: "Nothing more in this plan",
  under: "under way",
  choice: {
    legend: "Which plan is worked by",
    name: { "on-time": "On time", everything: "Everything", "on-hold": "In time, on hold" },
    late_name: "All that holds the car",
    left: (n: number) => (n === 0 ? "all in" : `${n} left for later`),
    likely: (time: string) => `likely ready ${time}`,
    late: (min: number, penalty_s: number) => (penalty_s === 0 ? `${min} min late` : `${min} min late, ${penalty_s} s`),
    onHold: "The car leaves on hold: safety-critical work is not in the plan.",
  },
  offer: {
    title: (n: number) => (n === 1 ? "A newer plan: 1 change" : `A newer plan: ${n} changes`),
    in: (what: string) => `comes in: ${what}`,
    out: (what: string) => `drops out: ${what}`,
    people: (what: string, names: string) => `${what}: now ${names}`,
    order: (name: string) => `${name}: another order`,
    keep: "Keep this one",
    take: "Use the newer plan",
  },
  lanes: "Everybody",
  key: {
    work: "repair",
    inspect: "inspect",
    check: "check",
    routine: "routine",
    open: "open or close",
    moves: "car moves: nobody at it",
  },
  /** Where a car has to leave its bay, on the lanes of several. */
  endOf: (car: string) => `${car} leaves`,
  lateShort: "late",
  moving: { up: "up", down: "down" },
  lasts: {
    s: (s: number) => `${s} s`,
    min: (min: number) => `${min} min`,
    both: (min: number, s: number) => `${min} min ${s} s`,
    h: (h: number, min: number) => (min === 0 ? `${h} h` : `${h} h ${min}`),
  },
  with: (names: string) => `with ${names}`,
  you: "you",
  lane: (name: string) => `Tasks of ${name}`,
  awayForAll: "away",
  laneSaid: (name: string, next: string) => `${name}: ${next}. All tasks`,
  there: (time: string) => `there from ${time}`,
  now: (time: string) => `now ${time}`,
  kind: {
    open: "open up",
    work: "repair",
    inspect: "inspection",
    check: "check",
    close: "put back",
    routine: "routine",
  } as Record<string, string>,
  state: { planned: "planned", "under-way": "under way", done: "done" } as Record<string, string>,
  spoken: (time: string, what: string, people: string, state: string) => `${time} ${what}, ${people}, ${state}`,
  and: (names: string[]) =>
    names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`,
  /** Between things that have a comma in them. */
  also: "; ",
  nobody: "nobody named",
  doneTitle: (n: number) => `Done in this service (${n})`,
  doneBy: (name: string, time: string) => `${name}, ${time}`,
  task: {
    notThere: "This task is not in the plan that this phone holds. Go back to the plan.",
    when: "When",
    besideCar: "Beside the car",
    parts: "Lay out",
    start: "Start",
    done: "Done",
    finishJob: "Finish it on the job's page",
    lookJob: "Inspect it on the job's page",
    lookOwn: "Inspections are signed on the job's page, with the inspector's own PIN.",
    begunBy: (name: string, time: string) => `${name} started at ${time}`,
    doneByLine: (name: string, time: string) => `Done: ${name}, ${time}`,
    critical: (percent: number) => `Decides the finish in ${percent} % of runs.`,
  },
  out: {
    title: "Not in the plan",
    little: (n: number) => (n === 1 ? "1 more, when hands are free" : `${n} more, when hands are free`),
    none: "Everything that the log holds open fits.",
    why: {
      time: "No time for it",
      value: "No value in the rate table, and no gap for it",
      risk: "The end would be too uncertain with it",
      part: "A part is missing",
      people: "Too few people",
      official: "Waits for the official",
    } as Record<string, string>,
    withIt: (times: number) => `With it in time ${timesInTen(times)}.`,
    to: {
      "next-service": "For the next service",
      road: "For the crew on the road",
      after: "For after the event",
    } as Record<string, string>,
    aboard: "Put in the car",
    tools: "Tools",
    defer: { "next-service": "Leave it for the next service", road: "Leave it to the crew on the road" } as Record<
      string,
      string
    >,
    reason: { part: "No part", value: "Can wait" } as Record<string, string>,
    noTime: "No time",
    deferred: "Left, the log says so",
    holds: "Leaving it does not lift the hold. Only an inspection does.",
  },
  needs: {
    title: "Not all that must be done fits",
    least: (min: number, late: number) => `All of it takes at least ${minutes(min)} here: out ${minutes(late)} late.`,
    penalty: (s: number) => `By this event's rules that is a penalty of ${seconds(s)}.`,
    past: "That is past the event's limit: the car would be out. Ask the officials, and decide what is left.",
  },
  buys: {
    title: "Leaving late",
    column: { late: "Late", penalty: "Penalty", adds: "What it buys" },
    row: (from: number, to: number) => (from === to ? `${from} min` : `${from} to ${to} min`),
    penalty: (from: number, to: number) => (to === 0 ? "none" : from === to ? `${from} s` : `${from} to ${to} s`),
    none: "nothing",
    noMore: "nothing more",
    drops: (what: string) => `(drops out: ${what})`,
    nothing: "Nothing comes in within the event's limit.",
    notProven: "not proven",
    nobodyLate: "Everything fits: no minute late buys more.",
  },
  hands: {
    title: "More or fewer hands",
    with: (n: number) => (n === 1 ? "With 1 mechanic" : `With ${n} mechanics`),
    adds: "Comes in",
    drops: "Drops out",
    same: "The same work.",
    ends: (time: string) => `Work ends at ${time}.`,
  },
  lateness: (used: number, left: number) =>
    `${used === 0 ? "No minute late so far" : `${minutes(used)} late so far`}; the event allows ${minutes(left)} more at this control.`,
  rulesDecide: "The event's own rules and its officials decide on penalties.",
  sheet: {
    link: "Job sheet",
    title: (car: string, service: string) => `Car ${car}, service ${service}`,
    titleOvernight: (car: string, clock: string) => `Car ${car}, ready by ${clock}`,
    print: "Print this sheet",
    due: (time: string) => `Due out ${time}`,
    stands:
      "Under the car only on stands, never on a jack alone. Let hot parts cool. Fuel open: no other work on the car.",
    rules: "This sheet says what the log holds. The event's rules, its officials and licensed practice decide.",
    parts: "Lay out",
    box: "Done",
    nothing: "nothing planned",
    leftOut: "Not in the plan",
    looks: "To inspect",
    looksNone: "No inspection is planned.",
    checkedBy: "checked by (team)",
    tools: "Tools counted, nothing left on the car",
    stale: "The queue has changed since this was made.",
  },
});

const STEPS: Record<string, [open: string, close: string]> = {
  "rinse-or-scrape": ["Rinse or scrape", "Rinse or scrape"],
  "torque-on-ground": ["Ready for torque on the ground", "Torque on the ground"],
  "cool-down": ["Let it cool down", "Cooled down"],
  "brakes-opened-and-bled": ["Open the brakes", "Bleed the brakes"],
  "fuel-made-safe": ["Fuel: make ready for work", "Fuel: close up"],
  "welding-place-made-safe": ["Welding place: make ready", "Welding place: put away"],
  "official-called": ["Call the official", "Official has been"],
};
const LIFTS: Record<string, [open: string, close: string]> = {
  "car-on-stands": ["Lift the car", "Lower the car"],
  "front-on-stands": ["Lift the front", "Lower the front"],
  "rear-on-stands": ["Lift the rear", "Lower the rear"],
};
const ENDINGS: [ending: string, open: string, close: string][] = [
  ["-on-stands", "up on stands", "down again"],
  ["-drained-and-filled", "drain", "fill"],
  ["-isolated", "isolate", "connect"],
  ["-emptied", "empty", "pack"],
  ["-off", "off", "on"],
  ["-out", "out", "in"],
  ["-up", "up", "down"],
];

/** Checks and routine work whose name alone is no sentence that is said in a bay; a look of the rate table is a check. */
const NAMED: Record<string, string> = {
  "wheel-nut-torque": "Torque the wheel nuts",
  "hub-nut-torque": "Torque the hub nut",
  "toe-check": "Check the toe",
  "rear-toe-check": "Check the rear toe",
  "brake-check-under-pressure": "Pedal held, check for leaks",
  "bonnet-pins-second-check": "Bonnet pins, a second check",
  "cut-off-check": "Try the cut-off",
  "door-opens-check": "Try the door from both sides",
  "fuel-leak-check": "Check for fuel leaks",
  "full-lock-check": "Full lock both ways",
  "guard-off-check": "Check with the guard off",
  "hose-routing-check": "Check how the hose runs",
  "lamp-check": "Lamps on, checked",
  "lock-to-lock-check": "Lock to lock, checked",
  "noise-check": "Listen for noise",
  "oil-leak-check": "Check for oil leaks",
  "restraint-check": "Check the restraints",
  "strap-check": "Check the straps",
  "throttle-closes-check": "Throttle closes",
  "weld-check": "Check the weld",
  "lamps-screen-and-numbers": "Lamps, screen and numbers",
  "belts-extinguishers-and-cut-off": "Belts, extinguishers, cut-off",
};

const words = (name: string) => name.replaceAll("-", " ");
const large = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function stepSaid(step: string, kind: "open" | "close"): string {
  const own = STEPS[step] ?? LIFTS[step];
  if (own) return own[kind === "open" ? 0 : 1];
  const found = ENDINGS.find(([ending]) => step.endsWith(ending));
  if (!found) return `${large(plan.kind[kind] ?? kind)}: ${words(step)}`;
  const [ending, open, close] = found;
  return `${large(words(step.slice(0, -ending.length)))} ${kind === "open" ? open : close}`;
}

/** "lift", "FR off", "guard off": an access step where there is little room. */
function stepShort(step: string, kind: "open" | "close", corner: string): string {
  if (step.endsWith("on-stands")) return kind === "open" ? "lift" : "lower";
  if (step === "wheel-off" && corner) return `${corner} ${kind === "open" ? "off" : "on"}`;
  const said = stepSaid(step, kind);
  return `${said.charAt(0).toLowerCase()}${said.slice(1)} ${corner}`.trim();
}

/** What is named by its task, not by a fixed word. */
export const tasks = worded("tasks", {
  step: stepSaid,
  /** A name from the rate table or the set-up, such as `wheel-nut-torque` or `swap`. */
  named: (name: string) => NAMED[name.replace(/\blook\b/, "check")] ?? large(words(name)),
  inspect: (what: string) => (what ? `Inspect ${what}` : "Inspect"),
  short: { inspect: "inspect", torque: "torque" },
  shortStep: stepShort,
});

/** Opening or closing an access step, in words: "Wheel off", "Wheel on"; a step of the team's own by its name. */
export const stepWords = (step: string, kind: "open" | "close"): string => tasks.step(step, kind);
