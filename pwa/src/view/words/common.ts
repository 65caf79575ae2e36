/** Words that several screens share: navigation, conditions, causes, places, sending. */

import { worded } from "../../kit/spoken";

const condition: Record<string, string> = {
  unknown: "Not sure, look at it",
  marked: "Marked",
  worn: "Worn",
  loose: "Loose",
  bent: "Bent",
  cracked: "Cracked",
  leaking: "Leaking",
  flat: "Flat",
  seized: "Seized",
  broken: "Broken",
  missing: "Missing",
};

const cause: Record<string, string> = {
  stone: "Stone",
  bank: "Bank",
  ditch: "Ditch",
  tree: "Tree",
  landing: "Landing",
  water: "Water",
  roll: "Roll",
  car: "Another car",
  recovery: "Recovery",
  wear: "Wear",
  unknown: "Not known",
};

const where: Record<string, string> = {
  stage: "Stage",
  "road-section": "Road section",
  service: "Service",
  recce: "Recce",
  shakedown: "Shakedown",
  regroup: "Regroup",
  recovery: "Recovery",
  workshop: "Workshop",
  "hand-over": "Hand-over",
  unknown: "Not known",
};

const drives: Record<string, string> = { well: "Well", poorly: "Poorly", no: "No, stopped" };

const sending: Record<string, string> = {
  waiting: "Waiting to be sent",
  sent: "Sent",
  attention: "Needs attention",
};

const role: Record<string, string> = {
  driver: "Driver",
  "co-driver": "Co-driver",
  mechanic: "Mechanic",
  inspector: "Inspector",
  manager: "Manager",
};

export const common = worded("common", {
  app: "Shuntbook",
  nav: "Screens",
  navLabel: {
    log: "Log",
    reports: "Reports",
    queue: "Queue",
    service: "Service",
    costs: "Costs",
    me: "Me",
    aside: "Set aside",
    handover: "Handover",
    codes: "Codes",
    plan: "Plan",
    briefing: "Briefing",
    walk: "Walk",
    readings: "Readings",
    documents: "Documents",
    statement: "Statement",
    season: "Season",
    setup: "Set-up",
    incidents: "Incidents",
    round: "Round",
    arrival: "Arrival",
    turn: "Turn",
    about: "About",
    looks: "Check lists",
    board: "Board",
  } as Record<string, string>,
  starting: "Reading what this phone holds …",
  insecureTitle: "No trusted address",
  insecure:
    "This page did not come over a trusted https address: it does not open without signal. Ask your manager for the right link.",
  unsigned: {
    title: "Not signed",
    insecure:
      "What you log here can't be signed: the page did not come over a trusted https address. It is kept and sent, but counts only once a manager has accepted it.",
    before:
      "You joined before entries were signed. What you log is kept and sent, but counts only once a manager has accepted it. Ask your manager for a new code and join again under Me: nothing is lost.",
  },
  loading: "Loading this screen …",
  loadFailed: "This screen could not be loaded. What is on this phone is kept. Try again, or come back with signal.",
  missing: (part: string) => `${part}: not on this phone yet. It comes by itself with signal; what you log is kept.`,
  voices: "Voice notes",
  keptApp: {
    ready: "Ready to work without signal ✓",
    keeping: (kept: number, of: number) => `Keeping the app: ${kept} of ${of} files`,
    retrying: (kept: number, of: number) => `${kept} of ${of} files kept, retrying`,
    begins: "Keeping the app for work without signal",
    unknown: "The app is not kept yet, retrying",
  },
  tryAgain: "Try again",
  notKept: (why: string) => `Not kept on this phone: ${why}. Try again; if it fails again, write it on paper.`,
  undo: "Undo",
  undoReason: "mis-tap",
  dismiss: "Close this message",
  choose: "Choose …",
  otherReason: "Or in your own words",
  by: (what: string, step: string) => `${what}: ${step}`,
  skip: "Skip to the screen",
  car: (car: string) => `Car ${car}`,
  cars: "Which car",
  whoNow: (name: string) => `${name} uses this phone now: change`,
  waitingCount: (n: number) => `${n} waiting`,
  attentionCount: (n: number) => `Attention: ${n}`,
  twoVersions: "Two versions",
  condition,
  cause,
  where,
  drives,
  sending,
  role,
  noZone: "Place not known",
  partIs: (part: string, condition: string) => `${part} ${condition.toLowerCase()}`,
  partSaid: (part: string, condition: string) => `${part}: ${condition.toLowerCase()}`,
  and: (zone: string, what: string) => `${zone}: ${what}`,
  /** What the set-up's own words are called here: English as they come. */
  named: (label: string) => label,
  access: (step: string) => step.replace("made-safe", "made-ready").replaceAll("-", " "),

  photoMissing: "Photo not on this phone yet",
  photoLarger: (n: number, of: number) => `Show photo ${n} of ${of} larger`,
  markPlace: "Mark the place",
  photoAlt: (n: number, of: number) => `Photo ${n} of ${of}`,
  km: (km: number) => `km ${km.toFixed(1)}`,
  notePage: (page: number) => `note page ${page}`,
  openReports: (n: number) => (n === 1 ? "1 open report" : `${n} open reports`),
  carTop: "Car seen from above",
  carUnder: "Underside of the car",
  front: "FRONT",
  sideTop: "From above",
  sideUnder: "Underside",
  drawing: "Which side of the car",
  otherZones: "Other places on this car",
  whichCar: "Which car is this phone with?",
  eventUnknown:
    "The event's set-up is not on this phone yet. Stay in reach of the van once, then it works without signal.",
  join: {
    title: "Join your team",
    how: "Open the link that your manager sent you, or type its code here. A code works once.",
    code: "Code",
    button: "Join",
    joining: "Asking the server …",
    pin: "PIN of 4 to 6 digits, for a phone that several use (may stay empty)",
    pinShape: "A PIN has 4 to 6 digits. Correct it, or leave it empty.",
    kept: "What this phone logged before is kept and still goes out.",
  },
});
