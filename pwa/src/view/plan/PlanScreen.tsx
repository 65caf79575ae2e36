/** The plan of one service: due out, who is next on what, lanes on a clock, what is left out, what minutes and hands buy. */

import type { Service } from "../../kit/api";
import { clockOnDay } from "../labels";
import "../queue/queue.css";
import type { CarScreen } from "../screen";
import "../service/service.css";
import { briefing as briefingWords } from "../words/briefing";
import { documents as documentWords } from "../words/documents";
import { plan as words } from "../words/plan";
import { team as teamWords } from "../words/team";
import { service as serviceWords } from "../words/service";
import { AskForm } from "./AskForm";
import { Buys, Needs } from "./Buys";
import { Choices, Offer } from "./Choices";
import { DoneList } from "./DoneList";
import { Facts, HowMade } from "./Facts";
import { Lanes } from "./Lanes";
import { LeftOutList } from "./LeftOutList";
import { MyTask } from "./MyTask";
import "./cards.css";
import "./plan.css";
import { Sheet } from "./Sheet";
import { TaskLists } from "./TaskLists";
import { TaskPage } from "./TaskPage";
import { overnightOf, type Planning, serviceToPlan, usePlanning } from "./usePlanning";

export function PlanScreen(props: CarScreen) {
  const service = serviceToPlan(props);
  const works = props.state.identity?.roles.some((role) => role !== "driver" && role !== "co-driver");
  if (works && service) return <Planned key={service.service} {...props} service={service} />;
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <p>{works ? words.allDone : words.onlyCrew}</p>
    </div>
  );
}

function Planned({ service, ...props }: CarScreen & { service: Service }) {
  const planning = usePlanning(props, service);
  const subject = props.state.route.subject;
  if (subject === "sheet") return <Sheet {...planning} />;
  if (subject?.startsWith("task/")) return <TaskPage {...planning} name={subject.slice("task/".length)} />;
  return <Board {...planning} />;
}

function Board(planning: Planning) {
  const { setup, service, held, actions } = planning;
  const overnight = overnightOf(planning);
  return (
    <div class="stack plan">
      <h1>{words.title}</h1>
      <label class="plan-which">
        <span class="unseen">{words.which}</span>
        <select value={service.service} onChange={(event) => actions.choosePlanned(event.currentTarget.value)}>
          {overnight && (
            <option value={overnight.service.service}>
              {words.overnight(clockOnDay(setup, overnight.by_ms, planning.state.now))}
            </option>
          )}
          {setup.services.map((one) => (
            <option key={one.service} value={one.service}>
              {serviceWords.name(one.service, one.after)}
            </option>
          ))}
        </select>
      </label>
      <Facts {...planning} />
      {held ? <Found {...planning} held={held} /> : <AskForm {...planning} />}
      {setup.cars.length > 1 && (
        <a class="button quiet" href="#/team">
          {teamWords.link}
        </a>
      )}
    </div>
  );
}

function Found(planning: Planning & { held: NonNullable<Planning["held"]> }) {
  const { needs, late_min } = planning.held.plan;
  return (
    <>
      <Offer {...planning} />
      {needs && late_min === 0 && <Needs needs={needs} />}
      <Choices {...planning} />
      <MyTask {...planning} />
      <Lanes {...planning} />
      <TaskLists {...planning} />
      <DoneList {...planning} />
      <LeftOutList {...planning} />
      <Buys {...planning} />
      <HowMade {...planning} />
      <div class="row even">
        <a class="button" href="#/plan/sheet">
          {words.sheet.link}
        </a>
        <a class="button" href="#/briefing">
          {briefingWords.link}
        </a>
        <a class="button" href="#/documents">
          {documentWords.link}
        </a>
      </div>
      <details class="sheet">
        <summary>{words.ask.again}</summary>
        <AskForm {...planning} />
      </details>
    </>
  );
}
