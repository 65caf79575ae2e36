/** The whole page: head line, message, the screen that the route names, navigation. */

import { useRef } from "preact/hooks";
import type { AppState } from "../flow/model";
import type { ScreenProps } from "./screen";
import "./ui/font.css";
import "./style/palette.css";
import "./style/base.css";
import "./style/controls.css";
import "./style/things.css";
import "./shell/shell.css";
import type { Role } from "../kit/api";
import { KeptApp } from "./bits/KeptApp";
import { lazy } from "./bits/lazy";
import { Head } from "./shell/Head";
import { Insecure } from "./shell/Insecure";
import { Message } from "./shell/Message";
import { Nav, screensOf } from "./shell/Nav";
import { PickCar } from "./shell/PickCar";
import { Unsigned } from "./shell/Unsigned";
import { jobLabel } from "./labels";
import { homeOf, SCREENS } from "./screens";
import { useArrival } from "./shell/useArrival";
import { common } from "./words/common";

// Once in a phone's life, and with the server there.
const Join = lazy(async () => (await import("./shell/Join")).Join);
const Road = lazy(async () => (await import("./queue/RoadScreen")).RoadScreen);

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

function Frame({ state, actions, roles, joined }: ScreenProps & { roles: Role[]; joined: boolean }) {
  const { screen } = state.route;
  const { width } = SCREENS[screen];
  useArrival(state.route, (!joined || state.setup) && !state.car, joined);
  return (
    <div class={width === "wall" ? "frame wall" : "frame"}>
      <div>
        <Head state={state} actions={actions} />
        <Insecure />
        <Unsigned state={state} />
        <Message message={state.message} actions={actions} />
      </div>
      {/* Another element for each screen: to focus what has the focus already tells a screen reader nothing. */}
      <main key={screen} class={`screen ${width ?? ""}`} id="screen" aria-label={nameOf(state)} tabIndex={-1}>
        <KeptApp keeping={state.keeping} following={state.following} screen={screen} />
        <Screen state={state} actions={actions} />
      </main>
      <Nav screens={screensOf(roles)} here={homeOf(screen)} />
    </div>
  );
}

/** What a screen reader says on arrival, since the focus goes to the screen as a whole. */
function nameOf({ setup, car, route }: AppState): string | undefined {
  const { screen, subject } = route;
  if (setup && car === null && homeOf(screen) !== "me") return common.whichCar;
  if (setup && screen === "job") return jobLabel(setup.car_map, subject ?? "");
  return common.navLabel[screen];
}

function Screen({ state, actions }: ScreenProps) {
  const { setup, car, route } = state;
  const shown = SCREENS[route.screen];
  if (shown.of === "app") return <shown.Shown state={state} actions={actions} />;
  if (setup && car === null) return <PickCar setup={setup} actions={actions} />;
  if (!setup || car === null) return <NoEvent />;
  if (shown.advises && !state.advice) return <Road setup={setup} />;
  const props = { state, setup, car, actions };
  return <shown.Shown key={shown.key?.(props)} {...props} />;
}

function NoEvent() {
  return (
    <div class="stack">
      <h1>{common.app}</h1>
      <p>{common.eventUnknown}</p>
    </div>
  );
}
