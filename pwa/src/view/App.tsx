/** The whole page: head line, message, the screen that the route names, navigation. */

import { useRef } from "preact/hooks";
import type { AppState } from "../flow/model";
import type { ScreenProps } from "./screen";
import "./style/palette.css";
import "./style/base.css";
import "./style/controls.css";
import "./style/things.css";
import "./shell/shell.css";
import type { Role } from "../kit/api";
import { KeptApp } from "./bits/KeptApp";
import { lazy } from "./bits/lazy";
import { LogScreen } from "./log/LogScreen";
import { Head } from "./shell/Head";
import { Insecure } from "./shell/Insecure";
import { Message } from "./shell/Message";
import { Nav, screensOf } from "./shell/Nav";
import { PickCar } from "./shell/PickCar";
import { Unsigned } from "./shell/Unsigned";
import { jobLabel } from "./labels";
import { useArrival } from "./shell/useArrival";
import { common } from "./words/common";

// Once in a phone's life, and with the server there.
const Join = lazy(async () => (await import("./shell/Join")).Join);
const Reports = lazy(async () => (await import("./reports/ReportsScreen")).ReportsScreen);
const Queue = lazy(async () => (await import("./queue/QueueScreen")).QueueScreen);
const Road = lazy(async () => (await import("./queue/RoadScreen")).RoadScreen);
const Job = lazy(async () => (await import("./job/JobScreen")).JobScreen);
const Service = lazy(async () => (await import("./service/ServiceScreen")).ServiceScreen);
const Costs = lazy(async () => (await import("./costs/CostsScreen")).CostsScreen);
const Statement = lazy(async () => (await import("./statement/StatementScreen")).StatementScreen);
const Season = lazy(async () => (await import("./season/SeasonScreen")).SeasonScreen);
const Aside = lazy(async () => (await import("./aside/AsideScreen")).AsideScreen);
const Handover = lazy(async () => (await import("./handover/HandoverScreen")).HandoverScreen);
const Codes = lazy(async () => (await import("./handover/CodesScreen")).CodesScreen);
const Plan = lazy(async () => (await import("./plan/PlanScreen")).PlanScreen);
const Briefing = lazy(async () => (await import("./briefing/BriefingScreen")).BriefingScreen);
const Walk = lazy(async () => (await import("./walk/WalkScreen")).WalkScreen);
const Readings = lazy(async () => (await import("./readings/ReadingsScreen")).ReadingsScreen);
const Documents = lazy(async () => (await import("./documents/DocumentsScreen")).DocumentsScreen);
const SetupPages = lazy(async () => (await import("./setup/SetupScreen")).SetupScreen);
const Incidents = lazy(async () => (await import("./incidents/IncidentsScreen")).IncidentsScreen);
const Turn = lazy(async () => (await import("./turn/TurnScreen")).TurnScreen);
const Arrival = lazy(async () => (await import("./arrival/ArrivalScreen")).ArrivalScreen);
const RoundWalk = lazy(async () => (await import("./round/RoundScreen")).RoundScreen);
const About = lazy(async () => (await import("./about/AboutScreen")).AboutScreen);
const Board = lazy(async () => (await import("./board/BoardScreen")).BoardScreen);
const Looks = lazy(async () => (await import("./looks/LooksScreen")).LooksScreen);
const Me = lazy(async () => (await import("./me/MeScreen")).MeScreen);

export function App({ state, actions }: ScreenProps) {
  const joining = useRef(false);
  if (!state.ready) return <p class="alone">{common.starting}</p>;
  if (!state.identity) {
    joining.current = true;
    return (
      <main class="alone">
        <Insecure />
        <h1>{common.join.title}</h1>
        <Join problem={state.join_problem ?? state.message?.text ?? null} actions={actions} />
      </main>
    );
  }
  return <Frame state={state} actions={actions} roles={state.identity.roles} joined={joining.current} />;
}

/** Screens that are reached from another one. */
const PARENT: Record<string, string> = {
  job: "queue",
  aside: "me",
  handover: "me",
  codes: "reports",
  plan: "service",
  statement: "costs",
  season: "costs",
  briefing: "service",
  walk: "me",
  readings: "service",
  documents: "service",
  setup: "me",
  incidents: "reports",
  round: "log",
  turn: "log",
  arrival: "service",
  about: "me",
  board: "service",
  looks: "me",
};

/** Screens that take more room than a column of text. */
const WIDTH: Record<string, string> = { costs: "broad", setup: "broad", board: "wall" };

function Frame({ state, actions, roles, joined }: ScreenProps & { roles: Role[]; joined: boolean }) {
  const { screen } = state.route;
  useArrival(state.route, (!joined || state.setup) && !state.car, joined);
  return (
    <div class={screen === "board" ? "frame wall" : "frame"}>
      <div>
        <Head state={state} actions={actions} />
        <Insecure />
        <Unsigned state={state} />
        <Message message={state.message} actions={actions} />
      </div>
      {/* Another element for each screen: to focus what has the focus already tells a screen reader nothing. */}
      <main key={screen} class={`screen ${WIDTH[screen] ?? ""}`} id="screen" aria-label={nameOf(state)} tabIndex={-1}>
        <KeptApp keeping={state.keeping} following={state.following} screen={screen} />
        <Screen state={state} actions={actions} />
      </main>
      <Nav screens={screensOf(roles)} here={PARENT[screen] ?? screen} />
    </div>
  );
}

/** What a screen reader says on arrival, since the focus goes to the screen as a whole. */
function nameOf({ setup, car, route }: AppState): string | undefined {
  const { screen, subject } = route;
  if (setup && car === null && (PARENT[screen] ?? screen) !== "me") return common.whichCar;
  if (setup && screen === "job") return jobLabel(setup.car_map, subject ?? "");
  return common.navLabel[screen];
}

function Screen({ state, actions }: ScreenProps) {
  const { setup, car } = state;
  const { screen } = state.route;
  if (screen === "aside") return <Aside state={state} actions={actions} />;
  if (screen === "handover") return <Handover state={state} actions={actions} />;
  if (screen === "setup") return <SetupPages state={state} actions={actions} />;
  if (screen === "looks") return <Looks state={state} actions={actions} />;
  if (screen === "about") return <About state={state} actions={actions} />;
  if (screen === "me") return <Me state={state} actions={actions} />;
  if (setup && car === null) return <PickCar setup={setup} actions={actions} />;
  if (!setup || car === null) {
    return (
      <div class="stack">
        <h1>{common.app}</h1>
        <p>{common.eventUnknown}</p>
      </div>
    );
  }
  const props = { state, setup, car, actions };
  if (screen === "reports") return <Reports {...props} />;
  if (screen === "codes") return <Codes key={state.route.subject} {...props} />;
  if (!state.advice && ["queue", "job", "plan", "board"].includes(screen)) return <Road setup={setup} />;
  if (screen === "queue") return <Queue {...props} />;
  if (screen === "job") return <Job key={`${state.route.subject} ${state.identity?.device}`} {...props} />;
  if (screen === "service") return <Service {...props} />;
  if (screen === "board") return <Board key={`${setup.event} ${car}`} {...props} />;
  if (screen === "plan") return <Plan {...props} />;
  if (screen === "briefing") return <Briefing {...props} />;
  if (screen === "walk") return <Walk key={`${setup.event} ${car}`} {...props} />;
  if (screen === "round") return <RoundWalk key={`${setup.event} ${car}`} {...props} />;
  if (screen === "turn") return <Turn key={`${setup.event} ${car}`} {...props} />;
  if (screen === "arrival") return <Arrival key={`${setup.event} ${car}`} {...props} />;
  if (screen === "readings") return <Readings key={`${setup.event} ${car}`} {...props} />;
  if (screen === "documents") return <Documents {...props} />;
  if (screen === "incidents") return <Incidents key={car} {...props} />;
  if (screen === "costs") return <Costs {...props} />;
  if (screen === "statement") return <Statement {...props} />;
  if (screen === "season") return <Season {...props} />;
  return <LogScreen {...props} />;
}
