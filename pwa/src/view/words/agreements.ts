/** Words of the form for an agreement: each term as a sentence, and what a hit would cost. */

import { worded } from "../../kit/language";

export const agreements = worded("agreements", {
  how: "Who pays for what breaks: one agreement for a car. A car without one charges nobody.",
  begin: (car: string) => `Agreement for car ${car}`,
  head: (customer: string, car: string) => `${customer || "Customer not named yet"}, car ${car || "not chosen"}`,
  open: "Edit",
  close: "Close",
  takeOut: "Take out this agreement",
  asTable: "Edit as a table",
  who: "Who, and which car",
  pays: "How much the customer pays",
  spared: "What is charged, and what is not",
  sums: "How it is calculated",
  hire: "The hire",
  drivers: "Who may drive",
  nobody: "Nobody here is a driver yet: add people first.",
  says: {
    agreement: "Its number, as it stands on the paper that was signed.",
    car: "The car that it is about.",
    customer: "Who pays; the statement is addressed to them.",
    address: "As it stands on the statement; separate lines with commas.",
    drivers: "Only what breaks while one of these drives is charged. Nobody chosen: whoever drives.",
    excess: (amount: string, isEvent: boolean) =>
      amount
        ? isEvent
          ? `Over the whole event the customer pays at most ${amount} for damage.`
          : `Of each hit the customer pays at most ${amount}.`
        : "No excess: the customer pays for all of the damage.",
    excess_per: "Whether the excess counts for each hit or once for the event.",
    cap: (amount: string) =>
      amount ? `For all damage together, never more than ${amount}.` : "No limit on all damage together.",
    share_percent: (percent: string) =>
      percent ? `Of each hit the customer bears ${percent} %, before excess and cap.` : "The customer bears all of it.",
    excluded: "Components that are never charged, whatever happened to them. Names of the car map.",
    wear_excluded: "The older name of excluded; it reads the same.",
    wear: (isCharged: boolean) =>
      isCharged ? "What only wore out is charged like damage." : "What only wore out is not charged.",
    included: "How many of a part are in the price: tyre*4. Fitting these is in the price, too.",
    part_worn: (isWorn: boolean) =>
      isWorn
        ? "A part is charged less what was used of its life before."
        : "A part is charged as new, whatever of its life was used.",
    labour_per_hour: (amount: string, isNone: boolean) =>
      amount
        ? isNone
          ? "No labour is charged."
          : `An hour of work costs ${amount}.`
        : "An hour of work costs what the rate table says.",
    consumables_percent: (percent: string) =>
      percent ? `Consumables add ${percent} %.` : "Consumables add what the rate table says.",
    recovery: (isCharged: boolean) =>
      isCharged ? "What breaks in the recovery is charged." : "What breaks in the recovery is in the price.",
    deposit: (amount: string) =>
      amount ? `${amount} was paid beforehand and is taken off.` : "Nothing was paid beforehand.",
    tax_percent: (percent: string) => (percent ? `${percent} % tax is added at the end.` : "No tax is added."),
    later_findings_days: (days: string) =>
      days
        ? `Damage found later than ${days} days after the return is not charged.`
        : "Damage found later is charged, too.",
    text: "What else was agreed; it stands on the statement.",
    signed_on: "The day on which it was signed.",
    hire_from: "When the hire begins.",
    hire_to: "When the car is due back. Who brings it later is late.",
  },
  example: "An example",
  size: (currency: string) => `A hit of … ${currency} of damage`,
  unread: "Write the size of the hit, and the terms, as numbers such as 1200 or 12.50.",
  one: (size: string, cost: string) => `A ${size} hit would cost the customer ${cost}.`,
  three: (size: string, cost: string) => `Three hits of ${size} in the event: ${cost}.`,
  misuse: (size: string) => `If it was misuse: ${size}, in full.`,
  tax: (tax: string) => `Tax on the one hit: ${tax}.`,
  deposit: (deposit: string, rest: string) =>
    `The deposit of ${deposit} is taken off: ${rest} still to pay for one hit.`,
  back: (deposit: string, rest: string) => `The deposit of ${deposit} covers one hit: ${rest} goes back.`,
  beside: "Parts of the price, wear and the drivers decide which damage counts. Other charges come on top.",
});
