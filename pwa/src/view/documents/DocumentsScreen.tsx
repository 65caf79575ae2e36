/** Documents to print: each with what it is for, made by the server when it is asked for. */

import { useState } from "preact/hooks";
import { LANGUAGES } from "../../kit/language";
import { Download } from "../bits/Download";
import type { CarScreen } from "../screen";
import { documents as words } from "../words/documents";
import { service as serviceWords } from "../words/service";
import { CostFiles } from "./CostFiles";
import { type DocumentName, documentsFor, usualLanguage, usualPaper } from "./papers";

export function DocumentsScreen({ state, setup, car, actions }: CarScreen) {
  const [paper, setPaper] = useState<string>(usualPaper(setup.timezone));
  const [speaks, setSpeaks] = useState<string>(usualLanguage(setup));
  const [service, setService] = useState("");
  const roles = state.identity?.roles ?? [];
  const about = (name: string) => words.about(name, car, setup.name);
  const address = (name: DocumentName) => {
    const asked = new URLSearchParams({
      paper,
      language: speaks,
      ...(name === "job-sheet" && service ? { service } : {}),
    });
    return `cars/${encodeURIComponent(car)}/documents/${name}.pdf?${asked}`;
  };
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <p>{words.what}</p>
      <label>
        <span class="label">{words.paper}</span>
        <select value={paper} onChange={(event) => setPaper(event.currentTarget.value)}>
          {Object.entries(words.papers).map(([name, label]) => (
            <option key={name} value={name}>
              {label}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span class="label">{words.language}</span>
        <select value={speaks} onChange={(event) => setSpeaks(event.currentTarget.value)}>
          {LANGUAGES.map((name) => (
            <option key={name} value={name}>
              {words.languages[name]}
            </option>
          ))}
        </select>
      </label>
      {documentsFor(roles, setup).map((name) => (
        <section key={name} class="sheet" aria-labelledby={`document-${name}`}>
          <h2 id={`document-${name}`}>{words.name[name]}</h2>
          <p class="soft">{words.use[name]}</p>
          {name === "job-sheet" && (
            <label>
              <span class="label">{words.service}</span>
              <select value={service} onChange={(event) => setService(event.currentTarget.value)}>
                <option value="">{words.anyService}</option>
                {setup.services.map((one) => (
                  <option key={one.service} value={one.service}>
                    {serviceWords.name(one.service, one.after)}
                  </option>
                ))}
              </select>
            </label>
          )}
          <Download
            label={words.pdf}
            path={address(name)}
            about={about(words.name[name] ?? name)}
            fetchDocument={actions.fetchDocument}
          />
          {name === "parts-order" && (
            <Download
              label={words.csv}
              path={`cars/${encodeURIComponent(car)}/documents/parts-order.csv`}
              about={about(words.name[name] ?? name)}
              fetchDocument={actions.fetchDocument}
            />
          )}
        </section>
      ))}
      <section class="sheet" aria-labelledby="all-papers">
        <h2 id="all-papers">{words.allTitle}</h2>
        <p class="soft">{words.allHow}</p>
        <Download
          label={words.zip}
          path={`cars/${encodeURIComponent(car)}/documents.zip?${new URLSearchParams({ paper, language: speaks })}`}
          about={about(words.allTitle)}
          fetchDocument={actions.fetchDocument}
        />
      </section>
      {roles.includes("manager") && (
        <CostFiles paper={paper} language={speaks} event={setup.name} fetchDocument={actions.fetchDocument} />
      )}
    </div>
  );
}
