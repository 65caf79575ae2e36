/** One paper beside the list: as which file, the button that fetches it, and what it would look like. */

import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Download } from "../bits/Download";
import type { ScreenProps } from "../screen";
import { Segmented } from "../ui/Choice";
import { documents as words } from "../words/documents";
import type { FormName, Listed } from "./listed";
import { Preview } from "./Preview";

interface SeenPaperProps extends ScreenProps {
  paper: Listed;
  /** All that one may have, of which a zip is made. */
  all: Listed[];
  /** `a4` or `letter`. */
  format: string;
  /** What else is chosen for it. */
  children: ComponentChildren;
}

export function SeenPaper({ state, actions, paper, all, format, children }: SeenPaperProps) {
  const [wanted, setWanted] = useState<FormName>(paper.forms[0].name);
  const form = paper.forms.find(({ name }) => name === wanted) ?? paper.forms[0];
  const isIssued = paper.id === "statement" && (state.statements?.answer.issued.length ?? 0) > 0;
  return (
    <section class="seen-paper" aria-labelledby="seen-title">
      <div class="seen-head">
        <h2 id="seen-title">{paper.name}</h2>
        {children}
        {paper.forms.length > 1 && (
          <Segmented
            legend={words.asWhat}
            quiet
            options={paper.forms.map(({ name }) => ({ value: name, label: words.form[name] }))}
            value={form.name}
            onChange={setWanted}
          />
        )}
        <Download
          key={form.name}
          label={words.get[form.name]}
          path={form.path}
          about={paper.about}
          fetchDocument={actions.fetchDocument}
          main
        />
      </div>
      {isIssued && <p class="soft">{words.issuedAsItWas}</p>}
      {form.seen ? (
        <Preview
          key={form.seen(1)}
          name={paper.name}
          address={form.seen}
          format={format}
          heard={state.last_heard}
          held={state.entries.length}
          previewDocument={actions.previewDocument}
        />
      ) : (
        <Inside form={form.name} all={all} />
      )}
    </section>
  );
}

/** What is in a file that is no page and no table. */
function Inside({ form, all }: { form: FormName; all: Listed[] }) {
  const lines = form === "zip" ? all.filter(({ id }) => id !== "all").map(({ name }) => name) : words.inWorkbook;
  return (
    <div class="sheet">
      <h3>{words.inside}</h3>
      <ul class="bulleted">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
        {form === "zip" && <li>{words.contents}</li>}
      </ul>
    </div>
  );
}
