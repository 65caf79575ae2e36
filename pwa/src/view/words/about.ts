/** Words of the About screen and of the three cards of the first run: what the app is, what it is not, who decides. */

import { worded } from "../../kit/language";
import { job } from "./job";

const { battery: _only_beside_its_job, ...cautions } = job.caution;

export const about = worded("about", {
  title: "What this is not",
  is: "What it is",
  isText: [
    "A log: what people saw and did on a car, who said it, and when. The queue, the plan and the costs follow from it.",
    "Nothing in it is changed or deleted. A mistake is withdrawn, and stays in the history.",
  ],
  not: "What it is not",
  notText: [
    "No inspection and no approval. It never says that a car may be driven. Nothing open in the log holds it: that means that no inspection which the log knows of is missing, and no more than that.",
    "No emergency call. Nobody is told by it that you need help: use the OK or SOS sign, the triangle and the number in the road book.",
    "No workshop manual. Minutes, checks and limits are your team's table or common practice, never the maker's word.",
    "No official clock, no result and no judge of a penalty. It counts with what you tell it.",
    "No advice to a crew on the road, where the event forbids it.",
  ],
  cautions: "Before anybody works on a car",
  caution: [
    ...Object.values(cautions),
    "The battery is isolated before anybody works on the wiring or welds.",
    "Torque by the maker's figures, with a wrench that is checked.",
    "A mark on the safety cage is shown to the officials. It is fixed by its maker or as the maker approves; a good-looking weld proves nothing.",
    "A sealed part is opened only with the officials' leave.",
  ],
  decides: "Who decides",
  decidesText:
    "The event's officials and its regulations, the law of the road, and people with the licence or the training for the work. Where they say something else than this app, they are right.",
  words: "Where the words come from",
  wordsText:
    "Penalties and times come from the event's set-up. Parts, what they are checked for, what a symptom may mean and these cautions are common practice without a source, unless a document of the app names one. Your team changes them in its set-up.",
  tour: "See the three cards of the first day",
});

export const tour = worded("tour", {
  label: "How it works",
  count: (n: number, of: number) => `Card ${n} of ${of}`,
  next: "Next",
  skip: "Skip",
  done: "Got it",
  finish: {
    title: "After the stage",
    text: [
      "Time card first. Past the end board, where you stop: tap the place that was hit, the part, Save.",
      "Not sure? The place alone is enough. Nothing seen? One tap says so. No signal? It is kept and goes out later.",
    ],
  },
  marks: {
    title: "What the marks mean",
    list: [
      { icon: "waiting", text: "Waiting to be sent: on this phone only" },
      { icon: "sent", text: "Sent: the server has it" },
      { icon: "attention", text: "Needs attention: read what it says" },
    ],
    number: "A number on the car: open reports at that place",
  },
  not: {
    title: "What it is not",
    text: [
      "A log. It never says that a car may be driven: officials, the regulations and licensed practice decide.",
      "It calls nobody. In an emergency: the sign, the triangle, the number in the road book. More: Me, About.",
    ],
  },
});
