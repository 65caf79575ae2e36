/** A statement to print. */

import { Download } from "../bits/Download";
import { statement as words } from "../words/statement";
import type { BillProps } from "./bill";

export function Pdf({ car, number, paper, actions }: BillProps & { car: string; number: number; paper: string }) {
  const path = `cars/${encodeURIComponent(car)}/documents/statement.pdf?${new URLSearchParams({ paper, number: String(number) })}`;
  return <Download label={words.pdf} path={path} fetchDocument={actions.fetchDocument} />;
}
