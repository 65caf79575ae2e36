/** Words of the car's arrival: what the driver is asked, and where nobody may work on the car. */

import { worded } from "../../kit/language";
import type { Question } from "../../report/asking";
import type { Control } from "../../report/controls";

export const arrival = worded("arrival", {
  link: "Driver debrief",
  title: "Driver debrief",
  how: "Seven questions, one tap each. What is not as before becomes a report.",
  allBefore: "All as before",
  asBefore: "As before",
  changed: "Not as before",
  what: "What of it?",
  whatNote: "Not sure which? Leave it: the question itself is noted.",
  question: {
    steering: "Steers straight, no play?",
    pedal: "Brake pedal as it should be?",
    handbrake: "Handbrake?",
    noise: "Noises, knocks, shakes?",
    gearbox: "Gearbox and clutch?",
    lamps: "Temperatures, lamps, engine?",
    hit: "Anything hit?",
  } as Record<Question, string>,
  topic: {
    steering: "steering",
    pedal: "brake pedal",
    handbrake: "handbrake",
    noise: "noise or shake",
    gearbox: "gearbox or clutch",
    lamps: "temperatures, lamps or engine",
    hit: "something hit",
  } as Record<Question, string>,
  noted: (topics: string[]) => `Driver says not as before: ${topics.join(", ")}`,
  save: (n: number) => (n === 0 ? "Save" : n === 1 ? "Save 1 answer" : `Save ${n} answers`),
  saving: "Keeping it …",
  needs: "Nothing is answered yet. Tap an answer, or All as before.",
  control: {
    "control-zone": "control zone",
    regroup: "regroup",
    "parc-ferme": "parc fermé",
  } as Record<Control, string>,
  where: "Where work is forbidden",
  whereNote:
    "While the car is there the work buttons are shut. What the event's regulations and its officials allow decides.",
  into: (name: string) => `Into ${name}`,
  out: "Out of it",
  since: (name: string, time: string) => `In ${name} since ${time}: nobody works on the car.`,
  look: "Hands off, eyes only. A report can be written at any time.",
  shut: (name: string, time: string) => `Shut: the car is in ${name} since ${time}, where nobody may work on it.`,
  before: (time: string) => `Only what was done before. It is recorded as said at ${time}.`,
  toOut: "It is out again? Say so on the Service page",
  undo: "Undo: it was not there",
  undoReason: "mis-tap",
});
