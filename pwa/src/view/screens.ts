/** Every screen: what shows it, where it is reached from, and what it needs. To add one: a name in `Route`, a line here. */

import type { ComponentType } from "preact";
import type { Route } from "../flow/model";
import { lazy } from "./bits/lazy";
import { LogScreen } from "./log/LogScreen";
import type { CarScreen, ScreenProps } from "./screen";

interface Place {
  /** The screen of the navigation that this one is reached from; none for those that are in it themselves. */
  parent?: Route["screen"];
  /** Whether it takes more room than a column of text. */
  width?: "broad" | "full" | "wall";
  /** The app bar has its name, and its page shows no title of its own. */
  named?: true;
  /** The list that this is one thing of: beside it where there is room. */
  beside?: Route["screen"];
}

/** A screen that is there before an event and a car are chosen. */
interface OfApp extends Place {
  of: "app";
  Shown: ComponentType<ScreenProps>;
}

interface OfCar extends Place {
  of: "car";
  Shown: ComponentType<CarScreen>;
  /** What it begins again for, with nothing of what was typed before. */
  key?: (props: CarScreen) => string;
  /** It shows what is advice: a crew on the road where the event forbids that gets a page that says so. */
  advises?: true;
}

const ofEvent = ({ setup, car }: CarScreen) => `${setup.event} ${car}`;

export const SCREENS: Record<Route["screen"], OfApp | OfCar> = {
  log: { of: "car", Shown: LogScreen },
  reports: {
    of: "car",
    Shown: lazy(async () => (await import("./reports/ReportsScreen")).ReportsScreen),
    width: "full",
    named: true,
  },
  report: {
    of: "car",
    Shown: lazy(async () => (await import("./reports/ReportScreen")).ReportScreen),
    key: ({ state }) => state.route.subject ?? "",
    parent: "reports",
    beside: "reports",
  },
  codes: {
    of: "car",
    Shown: lazy(async () => (await import("./handover/CodesScreen")).CodesScreen),
    key: ({ state }) => state.route.subject ?? "",
    parent: "reports",
  },
  incidents: {
    of: "car",
    Shown: lazy(async () => (await import("./incidents/IncidentsScreen")).IncidentsScreen),
    key: ({ car }) => car,
    parent: "reports",
  },
  round: {
    of: "car",
    Shown: lazy(async () => (await import("./round/RoundScreen")).RoundScreen),
    key: ofEvent,
    parent: "log",
  },
  turn: {
    of: "car",
    Shown: lazy(async () => (await import("./turn/TurnScreen")).TurnScreen),
    key: ofEvent,
    parent: "log",
  },
  queue: {
    of: "car",
    Shown: lazy(async () => (await import("./queue/QueueScreen")).QueueScreen),
    advises: true,
    width: "full",
  },
  job: {
    of: "car",
    Shown: lazy(async () => (await import("./job/JobScreen")).JobScreen),
    key: ({ state }) => `${state.route.subject} ${state.identity?.device}`,
    parent: "queue",
    beside: "queue",
    advises: true,
  },
  place: {
    of: "car",
    Shown: lazy(async () => (await import("./place/PlaceScreen")).PlaceScreen),
    key: ({ state }) => `${state.route.subject} ${state.identity?.device}`,
    parent: "queue",
    beside: "queue",
    advises: true,
  },
  retired: {
    of: "car",
    Shown: lazy(async () => (await import("./retired/RetiredScreen")).RetiredScreen),
    key: ofEvent,
    parent: "service",
  },
  passes: {
    of: "car",
    Shown: lazy(async () => (await import("./passes/PassesScreen")).PassesScreen),
    parent: "queue",
    advises: true,
  },
  service: { of: "car", Shown: lazy(async () => (await import("./service/ServiceScreen")).ServiceScreen) },
  arrival: {
    of: "car",
    Shown: lazy(async () => (await import("./arrival/ArrivalScreen")).ArrivalScreen),
    key: ofEvent,
    parent: "service",
  },
  board: {
    of: "car",
    Shown: lazy(async () => (await import("./board/BoardScreen")).BoardScreen),
    key: ofEvent,
    parent: "service",
    width: "wall",
    advises: true,
  },
  plan: {
    of: "car",
    Shown: lazy(async () => (await import("./plan/PlanScreen")).PlanScreen),
    parent: "service",
    advises: true,
  },
  team: {
    of: "car",
    Shown: lazy(async () => (await import("./team/TeamScreen")).TeamScreen),
    key: ({ setup }) => setup.event,
    parent: "service",
    advises: true,
  },
  briefing: {
    of: "car",
    Shown: lazy(async () => (await import("./briefing/BriefingScreen")).BriefingScreen),
    parent: "service",
  },
  readings: {
    of: "car",
    Shown: lazy(async () => (await import("./readings/ReadingsScreen")).ReadingsScreen),
    key: ofEvent,
    parent: "service",
  },
  lives: {
    of: "car",
    Shown: lazy(async () => (await import("./lives/LivesScreen")).LivesScreen),
    key: ofEvent,
    parent: "queue",
    advises: true,
  },
  documents: {
    of: "car",
    Shown: lazy(async () => (await import("./documents/DocumentsScreen")).DocumentsScreen),
    parent: "service",
  },
  costs: {
    of: "car",
    Shown: lazy(async () => (await import("./costs/CostsScreen")).CostsScreen),
    width: "broad",
    named: true,
  },
  statement: {
    of: "car",
    Shown: lazy(async () => (await import("./statement/StatementScreen")).StatementScreen),
    parent: "costs",
  },
  season: {
    of: "car",
    Shown: lazy(async () => (await import("./season/SeasonScreen")).SeasonScreen),
    parent: "costs",
    width: "broad",
  },
  walk: {
    of: "car",
    Shown: lazy(async () => (await import("./walk/WalkScreen")).WalkScreen),
    key: ofEvent,
    parent: "me",
  },
  more: { of: "app", Shown: lazy(async () => (await import("./more/MoreScreen")).MoreScreen), named: true },
  me: { of: "app", Shown: lazy(async () => (await import("./me/MeScreen")).MeScreen) },
  about: { of: "app", Shown: lazy(async () => (await import("./about/AboutScreen")).AboutScreen), parent: "me" },
  aside: { of: "app", Shown: lazy(async () => (await import("./aside/AsideScreen")).AsideScreen), parent: "me" },
  handover: {
    of: "app",
    Shown: lazy(async () => (await import("./handover/HandoverScreen")).HandoverScreen),
    parent: "me",
  },
  looks: { of: "app", Shown: lazy(async () => (await import("./looks/LooksScreen")).LooksScreen), parent: "me" },
  setup: {
    of: "app",
    Shown: lazy(async () => (await import("./setup/SetupScreen")).SetupScreen),
    parent: "me",
    width: "broad",
  },
};

/** Return the screen of the navigation that a screen belongs to. */
export const homeOf = (screen: Route["screen"]): Route["screen"] => SCREENS[screen].parent ?? screen;
