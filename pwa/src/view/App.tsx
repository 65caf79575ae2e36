/** The whole page: bars, the screen that the route names, what just happened, tabs. */

import { useRef } from "preact/hooks";
import type { AppState, Route } from "../flow/model";
import type { ScreenProps } from "./screen";
import "./ui/font.css";
import "./ui/tokens.css";
import "./style/palette.css";
import "./style/base.css";
import "./style/controls.css";
import "./style/things.css";
import "./shell/shell.css";
import type { EventSetup, Role } from "../kit/api";
import { entriesOf, ofKind } from "../report/lists";
import { KeptApp } from "./bits/KeptApp";
import { lazy } from "./bits/lazy";
import { Bar } from "./shell/Bar";
import { currentOf, sideOf, tabsOf } from "./shell/destinations";
import { Hold } from "./shell/Hold";
import { Said } from "./shell/Said";
import { jobLabel, zoneLabel } from "./labels";
import { forgetDrafts } from "./log/keptDraft";
import { homeOf, SCREENS } from "./screens";
import { useArrival } from "./shell/useArrival";
import { useWide } from "./shell/useWide";
import { Frame } from "./ui/Frame";
import { SideBar, Tabs } from "./ui/Tabs";
import { common } from "./words/common";

type ScreenName = Route["screen"];

// Once in a phone's life, and with the server there.
const Join = lazy(async () => (await import("./shell/Join")).Join);
const Notices = lazy<{ state: AppState }>(
  async () => (await import("./shell/Notices")).Notices,
  () => null,
);
const Told = lazy(
  async () => (await import("./shell/Told")).Told,
  () => null,
);
// Where there is room for two panes there is a keyboard, most likely.
const Keys = lazy(
  async () => (await import("./shell/Keys")).Keys,
  () => null,
);
const Retired = lazy<{ state: AppState; setup: EventSetup; car: string }>(
  async () => (await import("./shell/Retired")).Retired,
  () => null,
);
const PickCar = lazy(async () => (await import("./shell/PickCar")).PickCar);
const Road = lazy(async () => (await import("./queue/RoadScreen")).RoadScreen);

/** Seldom: then what says whether the car has retired is fetched. */
const STOPPED = ["car.retired", "car.restarts"] as const;

/** Seldom: then the notices are fetched. */
const isDoubtful = ({ identity }: AppState) =>
  globalThis.isSecureContext === false || (identity !== null && !identity.signs);

export function App({ state, actions }: ScreenProps) {
  const joining = useRef(false);
  if (!state.ready) return <p class="alone">{state.message?.text ?? common.starting}</p>;
  if (!state.identity || state.joining) {
    joining.current = true;
    return (
      <main class="alone">
        {isDoubtful(state) && <Notices state={state} />}
        <h1>{common.join.title}</h1>
        <Join problem={state.join_problem} said={state.message?.text} here={state.identity?.name} actions={actions} />
      </main>
    );
  }
  return <Framed state={state} actions={actions} roles={state.identity.roles} joined={joining.current} />;
}

function Framed({ state, actions, roles, joined }: ScreenProps & { roles: Role[]; joined: boolean }) {
  const { setup, car, route } = state;
  const { screen } = route;
  const shown = SCREENS[screen];
  const { of, named = false, parent } = shown;
  // What is advice is a page of text for a crew on the road, alone and as wide as text.
  const onRoad = shown.of === "car" && shown.advises === true && !state.advice;
  const { width = "", beside } = onRoad ? {} : shown;
  const stopped = of === "car" && STOPPED.some((kind) => ofKind(entriesOf(state.entries), kind).length > 0);
  const wide = useWide();
  const list = wide ? beside : undefined;
  const person = state.identity?.person ?? "";
  const before = useRef(person);
  if (before.current !== person) forgetDrafts();
  before.current = person;
  useArrival(route, (!joined || state.setup) && !car, joined, person);
  const kept = <KeptApp keeping={state.keeping} following={state.following} screen={screen} />;
  return (
    <Frame
      bar={
        <Bar
          state={state}
          actions={actions}
          parent={parentOf(wide ? sideOf(roles) : tabsOf(roles), screen, parent)}
          named={named}
        />
      }
      strip={of === "car" && setup && car !== null && <Hold {...{ state, setup, car }} />}
      notices={
        <>
          {stopped && setup && car !== null && <Retired {...{ state, setup, car }} />}
          {isDoubtful(state) && <Notices state={state} />}
          {wide && <Keys />}
          {state.told && <Told state={state} actions={actions} told={state.told} />}
        </>
      }
      // Another element for each person, whose forms are not the next one's, and for each screen: to focus what has the
      // focus already tells a screen reader nothing.
      screen={{ key: `${person} ${screen}`, id: "screen", label: nameOf(state), class: `screen ${width}` }}
      message={<Said state={state} actions={actions} />}
      {...navigation(roles, screen, setup?.name)}
      list={
        list && (
          <>
            {kept}
            <Screen state={state} actions={actions} shows={list} />
          </>
        )
      }
    >
      {!list && kept}
      <Screen state={state} actions={actions} />
    </Frame>
  );
}

/** Where the way back leads from what is in sight neither as a tab nor in the side bar: all else is come to from *More*. */
const parentOf = (ways: readonly { id: string }[], screen: ScreenName, parent: ScreenName | undefined) =>
  ways.some((one) => one.id === screen) ? undefined : (parent ?? "more");

/** The same ways twice: at the thumb on a phone, at the side where there is room. */
function navigation(roles: Role[], screen: ScreenName, event: string | undefined) {
  const [tabs, side] = [tabsOf(roles), sideOf(roles)];
  const at = (all: typeof tabs) => currentOf(all, screen, homeOf(screen));
  return {
    tabs: <Tabs label={common.nav} destinations={tabs} current={at(tabs)} />,
    side: (
      <SideBar label={common.nav} destinations={side} current={at(side)} brand={common.app}>
        {event}
      </SideBar>
    ),
  };
}

/** What a screen reader says on arrival, since the focus goes to the screen as a whole. */
function nameOf({ setup, car, route }: AppState): string | undefined {
  const { screen, subject } = route;
  if (setup && car === null && homeOf(screen) !== "me") return common.whichCar;
  if (setup && screen === "job") return jobLabel(setup.car_map, subject ?? "");
  if (setup && screen === "place") return zoneLabel(setup.car_map, subject?.split("/")[0] ?? null);
  return common.navLabel[screen];
}

/** `shows`: another screen than the route's, beside it. */
function Screen({ state, actions, shows }: ScreenProps & { shows?: ScreenName | undefined }) {
  const { setup, car, route } = state;
  const shown = SCREENS[shows ?? route.screen];
  if (shown.of === "app") return <shown.Shown state={state} actions={actions} />;
  if (setup && car === null) return <PickCar setup={setup} actions={actions} />;
  if (!setup || car === null)
    return <NoEvent first={state.events.length === 0 && Boolean(state.identity?.roles.includes("manager"))} />;
  if (shown.advises && !state.advice) return <Road setup={setup} />;
  const props = { state, setup, car, actions };
  return <shown.Shown key={shown.key?.(props)} {...props} />;
}

function NoEvent({ first }: { first: boolean }) {
  return (
    <div class="stack">
      <h1>{common.app}</h1>
      <p>{common.eventUnknown}</p>
      {first && (
        <a class="button main" href="#/setup/-/first">
          {common.firstEvent}
        </a>
      )}
    </div>
  );
}
