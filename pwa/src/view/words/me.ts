/** Words of the Me screen: person, phone, what is waiting. */

import { worded } from "../../kit/language";

const MOST_NAMED = 6;

/** `numbers 3, 4 and 5 have`, the first few named. */
function numbersHave(numbers: number[]): string {
  if (numbers.length === 1) return `number ${numbers[0]} has`;
  const named = numbers.slice(0, MOST_NAMED);
  const last = numbers.length > named.length ? `${numbers.length - named.length} more` : named.pop();
  return `numbers ${named.join(", ")} and ${last} have`;
}

/** `812 kB`, `3.4 MB`, `12 GB`. */
function size(bytes: number): string {
  if (bytes < 1e6) return `${Math.ceil(bytes / 1e3)} kB`;
  return bytes < 1e9 ? `${(bytes / 1e6).toFixed(1)} MB` : `${(bytes / 1e9).toFixed(1)} GB`;
}

export const me = worded("me", {
  title: "Me and this phone",
  iAm: (name: string) => `You are ${name}`,
  joinAnother: "Join another person",
  people: "People on this phone",
  refused:
    "The server does not know you on this phone any more. All is kept here. Ask your manager for a new code and join again; then it goes out.",
  resting: "The car does not drive: to spare the battery this phone tries the server once a minute, and by Send now",
  status: "This phone",
  waiting: (n: number) => (n === 0 ? "Nothing waiting to be sent" : `${n} waiting to be sent`),
  photos: (n: number) => (n === 0 ? "No photo or voice note waiting" : `Photos and voice notes waiting: ${n}`),
  attention: (n: number) => (n === 0 ? "Nothing refused" : `${n} need attention: see Reports`),
  heard: (time: string, ago: string) => `Server last heard ${time}, ${ago}`,
  heardNever: "Server not heard yet",
  reachable: "The last try reached the server",
  failed: "The server met an error at the last try. All is kept here and tried again by itself; its log says more.",
  unreachable: "The last try did not reach the server. It is tried again by itself.",
  sync: "Send and fetch now",
  syncing: "Asking the server …",
  kept: "Storage: the browser promised to keep it",
  keptNot: "Storage: the browser may clear it when space runs out. Send often, and add the app to the home screen.",
  room: (used: number, left: number) =>
    `Room: the app uses ${size(used)}, ${size(left)} are left, by the browser's estimate`,
  roomLittle: (left: number) =>
    `Room: only ${size(left)} left, by the browser's estimate. Send what waits, then delete films, pictures or apps that you do not need. On a full phone nothing more is saved.`,
  roomUnknown: "Room: this browser does not say how much is left for what the app keeps",
  home: {
    title: "Put Shuntbook on the home screen",
    offerWhy:
      "It opens in one tap, without the browser's bars, and the browser is more likely to keep what is logged when space runs out.",
    offer: "Put it on the home screen",
    byHandWhy:
      "On this phone the log is kept for good only then: the browser throws away what a page holds when it was not opened for seven days.",
    steps: [
      "First let everything go out: under Me nothing must be waiting. The icon begins with a log of its own.",
      "Tap the browser's share button, a square with an arrow up.",
      "Choose Add to Home Screen.",
      "Open Shuntbook by its icon and join there with a new code from your manager.",
    ],
  },
  keep: "Ask the browser to keep the log",
  offlineNot:
    "Does not open without signal here: the page did not come over a trusted https address. Ask your manager for the right link.",
  update: "An update is ready. It starts when you tap it, never by itself.",
  updateDo: "Update now",
  noUpdate: "The app is up to date as far as this phone knows",
  signed: (name: string) => `What you log here is signed as ${name}`,
  signaturesOff:
    "Signatures are off at this event: the log does not prove who wrote what. Your manager turned them off in the event's set-up.",
  aside: "Entries that need review",
  walk: "Hand-over walk of a car",
  setup: "Set up events",
  handover: "Hand over without a network",
  numbers: "Numbers that do not add up",
  numbersHow: "Each phone counts what is logged on it: 1, 2, 3 …",
  missing: (name: string, device: string, numbers: number[]) =>
    `${name}, phone ${device}: ${numbersHave(numbers)} not come in. They may still be on that phone, or were lost with it: open the app there, and ask ${name} what is missing.`,
  twice: (name: string, device: string, numbers: number[]) =>
    `${name}, phone ${device}: ${numbersHave(numbers)} come twice, as from a phone that was copied. Both entries are kept. Join again on one of the two phones.`,
  event: "Event",
  language: "Language",
  languageNote:
    "The page loads again in it. What is on this phone stays. What the server prints or refuses in detail, and what your team wrote itself, stays as it is.",
  languageNotKept: "This browser did not keep the choice: leave private browsing, then choose again.",
  not: "What this app is not",
  notText:
    "It holds a log. It never says a car may be driven: event officials, local rules and licensed practice decide.",
  looks: "Check lists",
  about: "About: what this is not, cautions, who decides",
  device: (d: string) => `This phone's number: ${d}`,
});
