/** Words of the manager's screen of what was set aside. */

import { worded } from "../../kit/language";

export const aside = worded("aside", {
  title: "Set aside",
  back: "Back to Me",
  what: "Entries that the server did not take into the log. Each is kept byte for byte, and its car is on hold until you have looked.",
  online: "Only the server holds this list: it shows with the server there, and is not kept on this phone.",
  notFor: "Only a manager looks through what was set aside. Ask yours.",
  load: "Ask the server again",
  loading: "Asking the server …",
  none: "Nothing waits for a look.",
  waiting: (n: number) => (n === 1 ? "1 waits for your look" : `${n} wait for your look`),
  done: (n: number) => `Looked at before (${n})`,
  unreadable: "An entry that can't be read",
  car: (car: string | null) => (car === null ? "No car can be read in it: it holds all cars" : `Car ${car}`),
  wroteBy: (name: string, device: string) => `Written by ${name}, on device ${device}`,
  brought: (who: string, time: string) => `Brought by ${who}, ${time}`,
  broughtByFile: "a file or the machine itself",
  onDevice: (name: string, device: string) => `${name} (device ${device})`,
  raw: "The entry as it came",
  accept: "Accept into the log",
  discard: "Leave it out",
  why: "Why do you decide so?",
  own: "Own reason",
  reasons: [
    "Asked the author: it is so",
    "Old app, before signing",
    "Looked at the car myself",
    "Nobody wrote this",
    "Said elsewhere already",
  ],
  needReason: "Give a reason first: it is kept with your name.",
  acceptMeans: "Accepted, it counts on your word, as if it had been signed. Everybody sees that you did it.",
  acceptSigned: "Its author signed it. Accepted, it counts with the time that it names.",
  inspectionNever: "No review makes an inspection count: its inspector says it again. Leave it out with a reason.",
  onlyInRebuild:
    "It would count on your word alone, which only a rebuild of the log allows. Whoever wrote it writes it again; leave this one out with a reason.",
  cannot: "It can't be accepted: there is nothing in it that the log can take. Leave it out with a reason.",
  decided: (verdict: string, name: string, reason: string) =>
    `${verdict === "accepted" ? "Accepted" : "Left out"} by ${name}: ${reason}`,
  bySelf: "the server itself",
  code: {
    unsigned: "It has no signature, and this event demands one.",
    "unknown-device": "It is signed by a device that this server does not know yet.",
    "bad-signature": "The signature does not fit: the entry was changed on its way, or forged.",
    "wrong-author": "It names another author than the person who joined on that device.",
    "shut-out": "It comes from a device that was shut out.",
    "odd-time": "It names a year that nobody can mean: the clock of its phone stood wrong.",
    conflict: "The log holds another entry with the same number.",
    "too-large": "It is longer than an entry may be.",
    "not-json": "It can't be read: it was damaged on its way.",
    "wrong-shape": "Something in it is not as an entry must be.",
    "unknown-version": "It was made by a newer or older app.",
    "unknown-kind": "It is of a kind that this server does not know.",
  } as Record<string, string>,
  todo: {
    unsigned: "Ask who wrote it to join again on that phone, so that it signs, and to write it again.",
    "unknown-device":
      "It counts by itself once a manager's phone that knew the device has reached this server. Wait for that first.",
    "bad-signature": "Ask who is named in it what he wrote, and let him write it again. Leave this one out.",
    "wrong-author": "Ask both people. Whoever wrote it writes it again under his own name.",
    "shut-out":
      "Ask the person. What was written before the phone was lost is to be written again; leave this one out.",
    "odd-time":
      "Ask the person. Accept it if what it says is right; its time stays as it is. Let that phone's clock be set.",
    conflict: "Compare it with the one in the log. What is missing there is to be written again.",
  } as Record<string, string>,
  todoOther: "Ask who is named in it to write it again, then leave this one out.",
});
