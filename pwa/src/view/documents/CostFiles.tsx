/** The cost sheet as files: a table, a workbook, pages. */

import type { Actions } from "../../flow/model";
import { documents as words } from "../words/documents";
import { costsListed } from "./listed";
import { Files } from "./Files";

export function CostFiles({
  paper,
  language,
  event,
  fetchDocument,
}: { paper: string; language: string; event: string } & Pick<Actions, "fetchDocument">) {
  const costs = costsListed(event, { paper, language });
  return (
    <section class="sheet" aria-labelledby="cost-files">
      <h2 id="cost-files">{words.costs}</h2>
      <Files listed={costs} fetchDocument={fetchDocument} />
    </section>
  );
}
