/** Words of the documents to print. */

import { worded } from "../../kit/language";

export const documents = worded("documents", {
  title: "Documents",
  link: "Documents",
  what: "The server makes them from what it holds now. They say what the team's log holds, no more: event officials, local rules and licensed practice decide.",
  paper: "Paper",
  papers: { a4: "A4", letter: "Letter" } as Record<string, string>,
  language: "Language",
  languages: { en: "English", fr: "Français" },
  service: "For which service",
  anyService: "No service named",
  costs: "Costs of the event",
  costsOf: (car: string) => `Costs of car ${car}`,
  costsUse: "Every line, the sums by car, day, stage, place, component and driver, adjustments, tax.",
  ofEvent: "All cars of the event",
  form: {
    pdf: "To print (PDF)",
    csv: "Table (CSV)",
    xlsx: "Workbook (XLSX)",
    zip: "All papers (zip)",
  },
  asWhat: "As what",
  get: {
    pdf: "Get it to print (PDF)",
    csv: "Get the table (CSV)",
    xlsx: "Get the workbook (XLSX)",
    zip: "Get all papers (zip)",
  },
  before: "Page before",
  after: "Next page",
  page: (page: number, of: number) => `Page ${page} of ${of}`,
  pageAlt: (name: string, page: number, of: number) =>
    `${name}, page ${page} of ${of}, as it would be printed. The PDF can be read aloud.`,
  moreLogged: "More was logged since.",
  showAgain: "Show it as it is now",
  noSignal: "No answer from the server",
  noSignalHow: "The server makes papers and their pictures. This page tries again as soon as the server is heard.",
  noneYet: "Nothing to print yet",
  firstRows: (shown: number, of: number) => (shown < of ? `the first ${shown} of ${of} rows` : `${of} rows`),
  noRows: "No rows yet.",
  inside: "What is in it",
  inWorkbook: [
    "Lines: one for each job and each access step, estimate beside actual",
    "Sums by car, day, stage, place, component and driver",
    "Adjustments, tax and the total",
    "Amounts are numbers, sums are formulas that calculate themselves",
    "What was there before the hand-over stands on a sheet of its own, in no sum",
  ],
  contents: "contents.txt: what is in it, and why the rest is not",
  issuedAsItWas:
    "The file is the statement as it was issued, byte for byte. The picture is set again from what was issued.",
  name: {
    "job-sheet": "Job sheet",
    "restart-sheet": "Restart sheet",
    "hand-over": "Hand-over of the car",
    declaration: "Declaration of property hit",
    record: "Damage and inspection record",
    "parts-order": "Parts order",
    statement: "Statement for the customer",
  } as Record<string, string>,
  use: {
    "job-sheet": "What is open, in order, with boxes to tick. One page.",
    "restart-sheet": "For re-scrutineering: found, done, checked by the team; a box for the official. One page.",
    "hand-over": "The walk as it was signed, out and return side by side, with the photos.",
    declaration: "What was hit that is not ours, for the crew to sign; a box for the official. One page.",
    record: "All in order of time, with photos, for insurers.",
    "parts-order": "What the open jobs need, less what is in the van.",
    statement: "The newest that was issued, in the customer's language; the draft where there is none yet.",
  } as Record<string, string>,
  fetching: "The server makes it …",
  coming: (bytes: number) => `Coming: ${size(bytes)}`,
  save: (name: string, bytes: number) => `Save ${name} (${size(bytes)})`,
  share: "Share it …",
  draft: "E-mail draft",
  draftHow: "An e-mail draft can't bring the file: it is saved beside it, for you to attach.",
  /** The subject of a draft, and what the shared file is. */
  about: (name: string, car: string, event: string) => [name, car && `car ${car}`, event].filter(Boolean).join(", "),
  mail: (about: string, file: string) =>
    `${about}\n\nAttached: ${file}\n\nFrom the team's own log. Event officials, local rules and licensed practice decide.\n`,
  allTitle: "All papers of this car",
  allHow:
    "One file to send or to keep: each paper that there is, statements as they were issued, and a list of what is in it.",
});

function size(bytes: number): string {
  return bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
