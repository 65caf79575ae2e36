/** What the app says of files that are taken into a set-up; by itself, since it comes with them. */

import { worded } from "./language";

export const taking = worded("taking", {
  whichToml: (file: string) => `${file}: a TOML file here is event.toml, car_map.toml or rates.toml.`,
  whichTable: (file: string) =>
    `${file}: its name tells no table, such as parts.csv. Open the table and upload it there.`,
  noWorkbook: (file: string, why: string) => `${file}: can't be read as a workbook (${why}).`,
  noSheet: (file: string) => `${file}: no sheet has the name of a table, such as Parts or People.`,
  noFiles: "No file of a set-up is in it: it starts with event.toml.",
  noToml: (why: string) => `A file is not valid TOML: ${why}`,
  noZip: (file: string, why: string) => `${file}: can't be read as a zip file (${why}).`,
  noColumns: (name: string, table: string, columns: string) =>
    `${name}: its first row names none of the columns of ${table}: ${columns}.`,
  sheet: (name: string) => `sheet ${name}`,
  column: (column: string, name: string) => `column ${column} of ${name}`,
  twice: (name: string) => `'${name}' stands twice`,
  unnamed: "is empty; it must be filled",
});
