/** Words of the guided path to a first event. */

import { worded } from "../../kit/language";

export const guide = worded("guide", {
  link: "Step by step",
  steps: "Steps",
  step: {
    event: "The event",
    cars: "Cars",
    people: "People",
    stages: "Stages",
    services: "Services",
    rates: "Rate table",
    van: "Van stock",
    agreements: "Agreements",
    changes: "Put in force",
    invite: "Let people in",
  },
  how: {
    event: "Its name and its time zone. Or take last year's folder or a spreadsheet: a sheet for each table.",
    cars: "A row for each car: its number, and what the team calls it.",
    people: "Write the name; the id follows by itself. Roles: driver; co-driver; mechanic; inspector; manager.",
    stages:
      "A row for each stage with its length. The start is optional; after the first row a clock such as 9:26 is enough.",
    services: "When the car is due in, the minutes from control to control, and the stage before it.",
    rates:
      "What each repair takes and costs. The package's table is a starting point, not measured: put your own figures into it.",
    van: "What is aboard. Parts are then counted down as they are used.",
    agreements: "Who pays for what breaks on a car that is hired out.",
    changes: "The server checks all of it, and names each fault with its cell.",
    invite: "A code for each person's phone. It works once, for a week.",
  },
  done: "done",
  optional: "optional",
  next: (step: string) => `Next: ${step}`,
  leave: "Leave it for now: the draft stays on this device.",
  takeRates: "Take the package's rate table",
  takeVan: "Take the sample's van stock",
  taking: "Fetching …",
  taken: (rows: number) => `${rows} rows are in the draft.`,
  replaces: (rows: number) => `The ${rows} rows that are here would go.`,
  notInForce: "Nobody can be let in before the event is in force.",
  code: (name: string) => `Code for ${name}`,
  finish: "All screens",
  pattern: "Begin with",
  patterns: { empty: "Nothing", sample: "The sample event, to change" } as Record<string, string>,
});
