/** Documents to print: each with what it is for, made by the server when it is asked for; seen first where there is room. */

import { useState } from "preact/hooks";
import { LANGUAGES } from "../../kit/language";
import type { CarScreen } from "../screen";
import { useWide } from "../shell/useWide";
import { SelectField } from "../ui/Field";
import { List, Row, SectionHeader } from "../ui/Row";
import { common } from "../words/common";
import { documents as words } from "../words/documents";
import { service as serviceWords } from "../words/service";
import "./documents.css";
import { Files } from "./Files";
import { type Chosen, type Listed, listed } from "./listed";
import { usualLanguage, usualPaper } from "./papers";
import { SeenPaper } from "./SeenPaper";

export function DocumentsScreen(props: CarScreen) {
  const { state, setup, car } = props;
  const [chosen, setChosen] = useState<Chosen>({
    paper: usualPaper(setup.timezone),
    language: usualLanguage(setup),
    service: "",
  });
  const papers = listed(state.identity?.roles ?? [], setup, car, chosen);
  const choose = (changed: Partial<Chosen>) => setChosen({ ...chosen, ...changed });
  const shown = { ...props, papers, chosen, choose };
  return useWide() ? <ListAndPaper {...shown} /> : <Papers {...shown} />;
}

interface ShownProps extends CarScreen {
  papers: Listed[];
  chosen: Chosen;
  choose: (changed: Partial<Chosen>) => void;
}

function Papers({ papers, actions, ...props }: ShownProps) {
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <p>{words.what}</p>
      <ForAll {...props} />
      {papers.map((one) => (
        <section key={one.id} class="sheet" aria-labelledby={`document-${one.id}`}>
          <h2 id={`document-${one.id}`}>{one.name}</h2>
          <p class="soft">{one.use}</p>
          {one.id === "job-sheet" && <ForService {...props} />}
          <Files listed={one} fetchDocument={actions.fetchDocument} />
        </section>
      ))}
    </div>
  );
}

function ListAndPaper({ papers, ...props }: ShownProps) {
  const { state, car, actions } = props;
  const paper = papers.find((one) => one.id === state.route.subject) ?? papers[0];
  const row = (one: Listed) => (
    <Row key={one.id} title={one.name} meta={one.use} href={`#/documents/${one.id}`} current={one.id === paper?.id} />
  );
  return (
    <div class="documents-wide">
      <div class="stack">
        <h1>{words.title}</h1>
        <div class="documents-for">
          <ForAll {...props} />
        </div>
        <section aria-labelledby="papers-of-car">
          <SectionHeader id="papers-of-car" title={common.car(car)} />
          <List labelledBy="papers-of-car">{papers.filter(({ id }) => id !== "costs").map(row)}</List>
        </section>
        {papers.some(({ id }) => id === "costs") && (
          <section aria-labelledby="papers-of-event">
            <SectionHeader id="papers-of-event" title={words.ofEvent} />
            <List labelledBy="papers-of-event">{papers.filter(({ id }) => id === "costs").map(row)}</List>
          </section>
        )}
        <p class="soft">{words.what}</p>
      </div>
      {paper && (
        <SeenPaper
          key={paper.id}
          state={state}
          actions={actions}
          paper={paper}
          all={papers}
          format={props.chosen.paper}
        >
          {paper.id === "job-sheet" && <ForService {...props} />}
        </SeenPaper>
      )}
    </div>
  );
}

/** What holds for every paper. */
function ForAll({ chosen, choose }: Pick<ShownProps, "chosen" | "choose">) {
  return (
    <>
      <SelectField
        label={words.paper}
        value={chosen.paper}
        options={Object.entries(words.papers).map(([value, label]) => ({ value, label }))}
        onChange={(paper) => choose({ paper })}
      />
      <SelectField
        label={words.language}
        value={chosen.language}
        options={LANGUAGES.map((value) => ({ value, label: words.languages[value] }))}
        onChange={(language) => choose({ language })}
      />
    </>
  );
}

function ForService({ setup, chosen, choose }: Pick<ShownProps, "setup" | "chosen" | "choose">) {
  const services = setup.services.map((one) => ({
    value: one.service,
    label: serviceWords.name(one.service, one.after),
  }));
  return (
    <SelectField
      label={words.service}
      value={chosen.service}
      options={[{ value: "", label: words.anyService }, ...services]}
      onChange={(service) => choose({ service })}
    />
  );
}
