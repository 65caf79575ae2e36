/** `#/service`: minutes left, what is next, who is on what, in and out by the officials' clock; `…/release` lets the car go. */

import "../ui/tokens.css";
import { useState } from "preact/hooks";
import type { EventSetup, Service } from "../../kit/api";
import { entriesOf } from "../../report/lists";
import { type CurrentService, currentService } from "../../report/service";
import "../queue/queue.css";
import { Dated } from "../readings/Dated";
import type { CarScreen } from "../screen";
import { SelectField } from "../ui/Field";
import { List, Row } from "../ui/Row";
import { arrival } from "../words/arrival";
import { board } from "../words/board";
import { briefing } from "../words/briefing";
import { documents } from "../words/documents";
import { readings } from "../words/readings";
import { log } from "../words/log";
import { team } from "../words/team";
import { service as words } from "../words/service";
import { Control } from "./Control";
import { nextService } from "./day";
import { Driver } from "./Driver";
import { Left, Planned } from "./Now";
import { ReleasePage } from "./ReleasePage";
import "./service.css";
import { Visit } from "./Visit";

export function ServiceScreen(props: CarScreen) {
  const { state, setup, car } = props;
  const entries = entriesOf(state.entries);
  const current = currentService(entries, car, setup);
  const suggested = current?.service ?? nextService(entries, car, setup)?.service ?? null;
  const [chosen, setChosen] = useState<string | null>(null);
  const service = setup.services.find((one) => one.service === (chosen ?? suggested));
  const works = (state.identity?.roles ?? []).some((role) => ["mechanic", "inspector", "manager"].includes(role));
  if (state.route.subject === "release" && service && works) {
    return (
      <div class="incar service">
        <ReleasePage {...props} service={service} />
      </div>
    );
  }
  return <Page {...props} {...{ current, service, works, setChosen }} />;
}

interface PageProps extends CarScreen {
  current: CurrentService | null;
  service: Service | undefined;
  /** Whether this person works on the car. */
  works: boolean;
  setChosen: (service: string | null) => void;
}

function Page(props: PageProps) {
  const { state, setup, car, current, service, works, setChosen } = props;
  const here = current && current.service === service?.service ? current : null;
  return (
    <div class="incar service">
      <h1 class="unseen">{words.title}</h1>
      {service && here && <Left {...props} service={service} current={here} />}
      {service && works && state.advice && <Planned key={service.service} {...props} service={service} />}
      <Links advice={state.advice} works={works} several={setup.cars.length > 1} />
      <Dated setup={setup} car={car} now_ms={state.now} pressing />
      <WhichService setup={setup} service={service} onChange={setChosen} />
      <Control {...props} />
      <Driver {...props} />
      {service && <Visit key={service.service} {...props} service={service} due_out_ms={here?.due_out_ms ?? null} />}
    </div>
  );
}

/** The pages that belong to a service; the release is the crew's in the bay. */
function Links({ advice, works, several }: { advice: boolean; works: boolean; several: boolean }) {
  const links: [string, string, boolean][] = [
    [words.release.title, "#/service/release", works],
    [team.link, "#/team", advice && works && several],
    [briefing.link, "#/briefing", true],
    [arrival.link, "#/arrival", true],
    [readings.link, "#/readings", true],
    [log.hasRetired, "#/retired", true],
    [documents.link, "#/documents", true],
    [board.link, "#/board", advice],
    [words.seeQueue, "#/queue", advice && !works],
  ];
  return (
    <nav class="service-links" aria-label={words.more}>
      <List>
        {links
          .filter(([, , is]) => is)
          .map(([title, href]) => (
            <Row key={href} title={title} href={href} />
          ))}
      </List>
    </nav>
  );
}

interface WhichServiceProps {
  setup: EventSetup;
  service: Service | undefined;
  onChange: (service: string | null) => void;
}

function WhichService({ setup, service, onChange }: WhichServiceProps) {
  const options = setup.services.map((one) => ({ value: one.service, label: words.name(one.service, one.after) }));
  return (
    <SelectField
      label={words.which}
      value={service?.service ?? ""}
      options={service ? options : [{ value: "", label: words.allDone }, ...options]}
      onChange={(value) => onChange(value || null)}
    />
  );
}
