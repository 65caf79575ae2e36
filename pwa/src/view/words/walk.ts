/** Words of the hand-over walk and of its paper. */

import { worded } from "../../kit/language";
import type { Lacking, Step } from "../../report/walk_draft";
import type { Corner, Fluid, Level, View } from "../../report/walk_list";

const view: Record<View, string> = {
  front: "Front",
  "front-right": "Front right, from the corner",
  "right-side": "Right side",
  "rear-right": "Rear right, from the corner",
  rear: "Rear",
  "rear-left": "Rear left, from the corner",
  "left-side": "Left side",
  "front-left": "Front left, from the corner",
  roof: "Roof",
  "arch-front-left": "Arch and wheel, front left",
  "arch-front-right": "Arch and wheel, front right",
  "arch-rear-right": "Arch and wheel, rear right",
  "arch-rear-left": "Arch and wheel, rear left",
  "under-front": "Underside, from the front",
  "under-rear": "Underside, from the rear",
  windscreen: "Windscreen",
  "seats-and-harness": "Seats and harness",
  "boot-kit": "Boot and what lies in it",
};

export const corner: Record<Corner, string> = {
  "front-left": "Front left",
  "front-right": "Front right",
  "rear-left": "Rear left",
  "rear-right": "Rear right",
};

const fluid: Record<Fluid, string> = {
  "engine-oil": "Engine oil",
  coolant: "Coolant",
  "brake-fluid": "Brake fluid",
  "clutch-fluid": "Clutch fluid",
  "power-steering": "Power steering fluid",
  "screen-wash": "Screen wash",
};

export const level: Record<Level, string> = { full: "Full", between: "Between", low: "Low", empty: "Empty" };

const step: Record<Step, string> = {
  photos: "Photos",
  marks: "Marks",
  figures: "Figures",
  kit: "Kit",
  sign: "Sign",
};

const lacking: Record<Lacking, string> = {
  views: "Some photos are neither taken nor left out with a reason.",
  team: "The name for the team is missing.",
  customer: "The customer's name is missing.",
  witness: "The second name for the team is missing.",
  "same-witness": "Two people of the team sign: the second name is the same as the first.",
};

const EIGHTHS = ["Empty", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8", "Full"];

export const walk = worded("walk", {
  title: "Hand-over walk",
  what: "Walk round the car together, both of you. It is kept on this phone from the first tap, and works without signal.",
  dutyOut: "Hand the car over",
  dutyReturn: "Take the car back",
  kind: { out: "Car handed over", return: "Car taken back" },
  noOut: "No walk at the hand-over is on this phone: a return has nothing to be compared with.",
  under: (kind: "out" | "return") => (kind === "out" ? "Hand-over under way" : "Return under way"),
  agreement: (agreement: string, customer: string) => `Agreement ${agreement}, ${customer}`,
  noAgreement: {
    none: "The set-up has no agreement for this car.",
    withheld: "Agreements are shown to managers only: ask the customer's name.",
  },
  signedWalks: "Signed walks of this car",
  noWalks: "None yet.",
  walkLine: (kind: "out" | "return", when: string, by: string) =>
    `${kind === "out" ? "Handed over" : "Taken back"} ${when}, ${by}`,
  steps: "Steps of the walk",
  step,
  stepName: (name: Step, done: string) => (done ? `${step[name]}, ${done}` : step[name]),
  done: (n: number, of: number | null) => (of === null ? `${n}` : `${n} of ${of}`),
  next: (name: Step) => `Next: ${step[name]}`,
  undo: (what: string) => `Undo: ${what}`,
  undoNothing: "Nothing to undo",
  giveUp: "Give this walk up",
  givenUp: "The walk was given up.",
  giveUpUndo: "Undo: go on with it",
  reading: "Looking for a walk on this phone …",

  view,
  viewOf: (n: number, of: number) => `Photo ${n} of ${of}`,
  take: "Take the photo",
  again: "Take it again",
  taking: "Keeping the picture …",
  leaveOut: "Leave it out",
  whyNone: "Why is there no photo?",
  reasons: ["Too dark", "Can't be reached here", "Car too dirty", "No time", "Camera does not work"],
  reasonOther: "Other reason",
  leaveOutWhy: (why: string) => `Leave it out: ${why}`,
  leftOut: (why: string) => `Left out: ${why}`,
  notYet: "Not taken yet",
  before: "At the hand-over",
  now: "Now",
  noBefore: "No photo at the hand-over",
  allViews: "All views",
  viewDone: { taken: "taken", out: "left out", open: "open" },
  allTaken: "All photos are taken or left out.",

  marksOut: "Existing marks",
  marksOutHow: "Tap each place with a mark. What is recorded here was there before: it is not charged later.",
  marksReturn: "New marks",
  marksReturnHow:
    "Tap each place with something new. It goes into the queue as damage; what was there at the hand-over does not.",
  wasThere: "Was there at the hand-over",
  wasThereNone: "No marks were recorded at the hand-over.",
  markWhat: (zone: string) => `${zone}: what is marked?`,
  markSafety:
    "Brakes, steering, cage and what holds wheels and belts are inspected before the car goes out, even where the mark is old.",
  note: "Note",
  keepMarkNext: "Keep it, next place",
  noMarks: "No marks yet.",
  change: "Change",
  remove: "Remove",
  markPhotos: (n: number) => (n === 1 ? "1 photo" : `${n} photos`),

  odometer: "Odometer, km",
  odometerWrong: "Write the km in digits alone.",
  odometerLess: (km: string) => `Less than the ${km} km of the hand-over. Which of the two is right?`,
  cleaning: "Does it need cleaning?",
  yes: "Yes",
  no: "No",
  fuel: "Fuel",
  eighths: EIGHTHS,
  fuelExact: "Fuel in percent",
  percent: (n: number) => `${n} %`,
  tread: "Tyre tread, mm",
  pads: "Brake pads, mm",
  corner,
  mm: (n: number) => `${n.toFixed(1)} mm`,
  mmWas: (n: number) => `was ${n.toFixed(1)} mm`,
  fluids: "Fluids",
  fluid,
  level,

  kit: "What is in the car",
  aboard: "Aboard",
  missing: "Missing",
  allAboard: "All the rest is aboard",
  kitAdd: "Something else",
  kitAddDo: "Add it",
  kitRemove: (item: string) => `Take ${item} off the list`,
  kitFull: "The list is full: put several things in one line.",

  signTitle: "Sign",
  signs: {
    title: "What is signed",
    of: (n: number, all: number) => `${n} of ${all}`,
    kit: (aboard: number, missing: string[], open: number) =>
      [
        `${aboard} aboard`,
        ...(missing.length > 0 ? [`missing: ${missing.join(", ")}`] : []),
        ...(open > 0 ? [`${open} not checked`] : []),
      ].join("; "),
  },
  signReserve:
    "Returned like this. Damage hidden under dirt, or found when the car is taken apart within the time of the agreement, is reserved.",
  signOut: "Handed over like this. What is recorded here was there before, and is not charged.",
  record: "This is the record of both sides. The agreement comes first where the two differ.",
  team: "For the team",
  customer: "For the customer",
  witness: "Second of the team",
  name: "Name",
  nameOf: (side: string) => `name ${side.toLowerCase()}`,
  how: "The customer",
  hows: { "on-screen": "Signs here", "not-present": "Is not present", refused: "Will not sign" },
  aloneWhy: "Two of the team sign in the customer's place.",
  noDrawing: "This browser can't draw the signature: nothing was kept. Type the name alone.",
  drawHere: (name: string) => `${name}: sign here with a finger`,
  drawOr: "Without a drawing, the typed name stands.",
  wipe: "Wipe it away",
  lacking,
  lackViews: (n: number) => (n === 1 ? "1 photo is missing: why?" : `${n} photos are missing: why?`),
  signDo: "Sign",
  signing: "Signing …",
  signed: "Signed",
  signedHow: "Kept on this phone. It goes to the server by itself when there is signal.",
  paper: "Paper",
  paperSizes: { a4: "A4", letter: "Letter" },
  making: "Making the paper …",
  madePaper: (pages: number, bytes: number) =>
    `${pages === 1 ? "1 page" : `${pages} pages`}, ${(bytes / 1e6).toFixed(1)} MB.`,
  paperMissing: (n: number) =>
    n === 1
      ? "1 photo is not on this phone: its place is empty."
      : `${n} photos are not on this phone: their places are empty.`,
  make: (size: string) => `Make the PDF, ${size}`,
  another: "Back to the walks",

  pdf: {
    title: { out: "Hand-over of a car", return: "Return of a car" },
    event: "Event",
    car: "Car",
    agreement: "Agreement",
    customer: "Customer",
    when: "When",
    by: "Recorded by",
    id: "Entry",
    comparedWith: "Compared with",
    marks: { out: "Existing marks", return: "New marks" },
    wasThere: "Marks that were there at the hand-over",
    none: "None recorded.",
    figures: "Figures",
    figureNone: "Not read",
    tread: (place: Corner) => `Tread, ${corner[place].toLowerCase()}`,
    pads: (place: Corner) => `Brake pad, ${corner[place].toLowerCase()}`,
    fluids: "Fluids",
    kit: "Kit",
    note: "Note",
    photos: "Photos",
    signatures: "Signatures",
    noPhoto: (why: string) => `No photo: ${why}`,
    notHere: "This photo was not on the phone that made this paper.",
    how: {
      "on-screen": "Signed on the screen",
      typed: "Name typed, nothing drawn",
      "not-present": "Not present",
      refused: "Did not sign",
    },
    side: { team: "For the team", customer: "For the customer" },
    foot: (car: string, event: string, when: string) => `Car ${car}, ${event}, ${when}`,
    labelled: (label: string, text: string) => `${label}: ${text}`,
    page: (page: number, of: number) => `Page ${page} of ${of}`,
    was: (now: string, was: string) => `${now} (was ${was})`,
  },
});
