/** Words of the reports screen. */

import { worded } from "../../kit/language";

export const reports = worded("reports", {
  title: "Reports",
  none: "What you log shows here, with whether it was sent.",
  noneTitle: "Nothing reported yet",
  logOne: "Log a hit",
  count: (n: number) => (n === 1 ? "1 report" : `${n} reports`),
  waiting: (n: number) => `${n} waiting to be sent`,
  placeOnly: "place alone",
  sending: { waiting: "Waiting", sent: "Sent", attention: "Needs attention" } as Record<string, string>,
  more: "More for these reports",
  ways: {
    codes: "Send by QR code",
    handover: "Receive from another phone",
    incidents: "Incidents: hits, property, others",
  },
  nothingSeen: "Nothing seen",
  seat: "from the seat",
  round: "walked round",
  twoVersions:
    "Two versions: two people edited this at the same time. The queue takes the worse of both until one change replaces them.",
  join: "Make it one",
  version: (name: string, time: string) => `${name}, ${time}`,
  amend: "Change",
  withdraw: "Withdraw",
  withdrawWhy: "Why withdraw it?",
  reasons: ["Filed by mistake", "Same hit, said twice", "Wrong car", "Looked again: nothing there"],
  reasonOther: "Other reason",
  withdrawDo: "Withdraw this report",
  withdrawNote: "Brake, steering and cage findings stay on the list to inspect, even when withdrawn.",
  withdrawn: "Withdrawn",
  refusedTitle: "Needs attention",
  refusedWhat: (title: string) => `The server did not take this: ${title}.`,
  refusedDo:
    "It is kept on this phone and nothing is lost. Tell your manager: they can look at it on the server. Until then the car shows HOLD.",
  fix: {
    unsigned:
      "It carries no signature. Ask your manager to accept it; join again with a new code over the right https link, so that what you log next is signed.",
    "unknown-device":
      "The server does not know the device that wrote it yet. It counts by itself once a manager's phone has reached this server.",
    "no-pin":
      "This event takes inspections and releases on hold only with a PIN, and this phone joined without one. Join again with a new link, choose a PIN, and do it again.",
    "bad-signature":
      "Its signature does not fit: it was changed on its way here. Log it again, then tell your manager about this one.",
    "wrong-author":
      "It names somebody else than who joined on that device. Change to the right person in the top line and log it again.",
    "shut-out":
      "This phone was blocked before this was sent. Ask your manager to look at it. What you log after joining again counts.",
    "odd-time":
      "It names a year that can't be right. Set this phone's clock and log it again, then tell your manager about this one.",
    conflict: "Another entry has the same number. Log it again, then tell your manager about this one.",
    "too-large": "It is too long. Shorten the note and log it again.",
    "unknown-version":
      "This phone's app is newer or older than the server. Update one of them; the entry goes out then.",
    "unknown-kind": "This phone's app is newer or older than the server. Update one of them; the entry goes out then.",
    "set-aside-full":
      "It is on this phone only. Your manager has to review what came from this phone; it is sent again then.",
    "wrong-shape":
      "Something in it is not what the server expects. Log it again, then tell your manager about this one.",
  } as Record<string, string>,
  kind: {
    "report.filed": "Report",
    "report.amended": "Changed report",
    "report.withdrawn": "Withdrawn report",
    "stage.nothing_seen": "Nothing seen",
    "service.entered": "In service",
    "service.left": "Left service",
    "driver.changed": "Who drives",
    "control.entered": "No work allowed",
    "control.left": "Work allowed again",
    "driver.asked": "Driver asked",
    "job.started": "Job started",
    "job.stopped": "Job stopped",
    "job.finished": "Job finished",
    "job.deferred": "Job deferred",
    "inspection.passed": "Inspection: passed",
    "inspection.failed": "Inspection: failed",
    "car.released": "Car released",
    "task.started": "Task started",
    "task.finished": "Task finished",
    "briefing.acknowledged": "Briefing read",
    "cost.adjusted": "Cost adjusted",
    "incident.grouped": "Reports of one hit",
    "reading.taken": "Reading",
    "handover.signed": "Hand-over",
    "charge.decided": "Who pays",
    "charge.added": "Other charge",
    "part.fitted": "Part fitted",
    "part.retained": "Broken part kept",
    "statement.issued": "Statement",
    "statement.line_settled": "Line of a statement",
    "entry.voided": "Undo",
    "photo.linked": "Photo",
    "voice.linked": "Voice note",
  } as Record<string, string>,
  drives: (how: string) => `Drives: ${how.toLowerCase()}`,
  fromDirection: (d: string) => `Hit from ${d}`,
});
