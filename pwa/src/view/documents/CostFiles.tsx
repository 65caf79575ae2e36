/** The cost sheet as files: a table, a workbook, pages. */

import type { Actions } from "../../flow/model";
import { Download } from "../bits/Download";
import { documents as words } from "../words/documents";

export function CostFiles({ paper, fetchDocument }: { paper: string } & Pick<Actions, "fetchDocument">) {
  return (
    <section class="sheet" aria-labelledby="cost-files">
      <h2 id="cost-files">{words.costs}</h2>
      <Download label={words.pdf} path={`costs.pdf?paper=${paper}`} fetchDocument={fetchDocument} />
      <Download label={words.xlsx} path="costs.xlsx" fetchDocument={fetchDocument} />
      <Download label={words.csv} path="costs.csv" fetchDocument={fetchDocument} />
    </section>
  );
}
