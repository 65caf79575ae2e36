/** The cost sheet as files: a table, a workbook, pages. */

import type { Actions } from "../../flow/model";
import { Download } from "../bits/Download";
import { documents as words } from "../words/documents";

export function CostFiles({
  paper,
  language,
  event,
  fetchDocument,
}: { paper: string; language: string; event: string } & Pick<Actions, "fetchDocument">) {
  const about = words.about(words.costs, "", event);
  return (
    <section class="sheet" aria-labelledby="cost-files">
      <h2 id="cost-files">{words.costs}</h2>
      <Download
        label={words.pdf}
        path={`costs.pdf?${new URLSearchParams({ paper, language })}`}
        about={about}
        fetchDocument={fetchDocument}
      />
      <Download label={words.xlsx} path="costs.xlsx" about={about} fetchDocument={fetchDocument} />
      <Download label={words.csv} path="costs.csv" about={about} fetchDocument={fetchDocument} />
    </section>
  );
}
