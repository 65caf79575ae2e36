/** Words of handing over without a network: files and codes. */

import { worded } from "../../kit/language";
import type { ScanNews, TakenIn } from "../../report/handed";

const counted = (n: number, one: string, more = `${one}s`) => `${n} ${n === 1 ? one : more}`;
const entriesOf = (n: number) => counted(n, "entry", "entries");

export const handover = worded("handover", {
  title: "Hand over without a network",
  what: "What this phone holds goes to another phone, or to the server, with no signal at all. Nothing is lost here, and the same thing taken twice counts once.",
  out: "Give a file",
  outHow:
    "All entries and photos of this event that are on this phone. Send the file by any way there is: the phone's own sharing, a cable, a memory stick.",
  make: "Make the file",
  making: "Making the file …",
  made: (entries: number, photos: number, bytes: number) =>
    `The file holds ${entriesOf(entries)} and ${counted(photos, "photo")}: ${(bytes / 1e6).toFixed(1)} MB.`,
  share: "Share it …",
  save: "Save it on this phone",
  in: "Take a file",
  inHow: "A file that another phone or the server made. It is checked whole first: a damaged one is refused whole.",
  pick: "Choose the file",
  taking: "Checking the file …",
  damaged: "This file is damaged, or none of Shuntbook's: nothing of it was taken. Ask for it again.",
  codes: "By code, through the car window",
  codesHow:
    "One phone shows its reports as QR codes, the other scans them. Photos do not fit: they come by file, or with a network.",
  show: "Send reports by QR code",
  scan: "Scan codes",
  scanStop: "Stop scanning",
  camera: "What the camera sees",
  again: "Scan more codes",
});

function taken({ fresh, held, photos, doubtful, conflicts, unreadable }: TakenIn): string[] {
  const said = [`Taken: ${entriesOf(fresh)} new, ${held} here already, ${counted(photos, "photo")} new.`];
  if (fresh > 0) said.push("Not sent to the server yet: that happens by itself when there is one.");
  if (doubtful > 0) {
    said.push(
      `${entriesOf(doubtful)} can't be believed on this phone alone. The server decides; until then the car is on hold.`,
    );
  }
  if (conflicts > 0)
    said.push(
      `${entriesOf(conflicts)} not taken: another one of the same number is here. Give the file to the server.`,
    );
  if (unreadable > 0)
    said.push(`${entriesOf(unreadable)} not taken: this app can't read them. Give the file to the server.`);
  return said;
}

const FAILED = {
  "no-https": "The camera needs the https address of the server: open the app there, or hand over by file.",
  "no-camera": "No camera was found on this device. Hand over by file.",
  "not-allowed": "The browser was not allowed to use the camera. Allow it for this page, or hand over by file.",
} as const;

function scan(news: ScanNews): string {
  if (news.news === "piece") return `${news.have} of ${news.of} codes read. Hold still: the rest comes by itself.`;
  if (news.news === "foreign") return "That is another kind of code. Point the camera at the codes on the other phone.";
  if (news.news === "damaged") return "The codes did not fit together. Keep the camera on them: they are read again.";
  if (news.news === "failed") return FAILED[news.why];
  return "Point the camera at the code on the other phone, so that it fills most of the picture.";
}

/** Sentences that depend on what happened. */
export const handing = worded("handing", { taken, scan });

/** Return what came in, a sentence each. */
export const takenWords = (news: TakenIn): string[] => handing.taken(news);

/** Return what the scan is at. */
export const scanWords = (news: ScanNews): string => handing.scan(news);

export const codes = worded("codes", {
  title: "Send by QR code",
  how: "Hold this phone so that the other one's camera sees the whole code. On the other phone: Me, Hand over without a network, Scan codes.",
  photos: "Photos do not fit in a code: they come by file, or with a network.",
  which: "Reports",
  none: "No report of this car is on this phone yet.",
  nothing: "Tick at least one report.",
  tooMany: "That is too much for codes. Tick fewer reports, or hand over by file.",
  drawing: "Drawing the code …",
  place: (n: number, of: number) => (of === 1 ? "One code holds it all." : `Code ${n} of ${of}`),
  code: (n: number, of: number) => `QR code ${n} of ${of}`,
  stop: "Stop at this code",
  goOn: "Go on by itself",
  next: "Next code",
  unsent: "not sent yet",
});
