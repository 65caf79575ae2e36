/** A statement to print. */

import { Download } from "../bits/Download";
import { documents } from "../words/documents";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";

export function Pdf({
  car,
  number,
  paper,
  setup,
  actions,
}: BillProps & { car: string; number: number; paper: string }) {
  const path = `cars/${encodeURIComponent(car)}/documents/statement.pdf?${new URLSearchParams({ paper, number: String(number) })}`;
  const about = documents.about(words.issued(number), car, setup.name);
  return <Download label={words.pdf} path={path} about={about} fetchDocument={actions.fetchDocument} />;
}
