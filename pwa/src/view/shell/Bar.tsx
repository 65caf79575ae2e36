/** The app bar of every screen: which car, where it is in the day, whether the server answers, who holds the phone. */

import type { Actions, AppState } from "../../flow/model";
import { lazy } from "../bits/lazy";
import { useOpen } from "../bits/useOpen";
import { carLabel } from "../labels";
import { AppBar, type SyncState } from "../ui/AppBar";
import { common } from "../words/common";
import { shell as words } from "../words/shell";
import { itineraryLines } from "./itinerary";
import { goBack } from "./trail";

const People = lazy<{ state: AppState; actions: Actions; onDone: () => void }>(
  async () => (await import("./PeopleSheet")).PeopleSheet,
  () => null,
);

interface BarProps {
  state: AppState;
  actions: Actions;
  /** Where the way back leads if this screen was the first; none on the screens of the tabs. */
  parent: string | undefined;
  /** The screen's own name in place of the itinerary: its page shows no other title. */
  named: boolean;
}

export function Bar({ state, actions, parent, named }: BarProps) {
  const people = useOpen();
  const [title, context] = linesOf(state, named, parent === undefined);
  return (
    <>
      <AppBar
        before={
          <a class="skip button" href={`#/${state.route.screen}`} onClick={skip}>
            {common.skip}
          </a>
        }
        back={parent === undefined ? undefined : { label: words.back, onBack: () => goBack(parent) }}
        plate={plateOf(state, actions)}
        title={title}
        context={context}
        sync={syncOf(state)}
        person={personOf(state, people)}
      />
      {people.isOpen && <People state={state} actions={actions} onDone={people.close} />}
    </>
  );
}

function linesOf(state: AppState, named: boolean, roomy: boolean): [string, string?] {
  const { setup, car, route } = state;
  if (named) return [common.navLabel[route.screen] ?? "", roomy ? setup?.name : undefined];
  if (setup && state.reading) return [setup.name, common.starting];
  return setup && car !== null ? itineraryLines(state, setup, car) : [common.app, setup?.name];
}

function plateOf({ setup, car }: AppState, actions: Actions) {
  if (car === null) return undefined;
  const plate = { text: car, label: common.cars };
  if (!setup || setup.cars.length < 2) return plate;
  const options = setup.cars.map((one) => ({ value: one.car, label: carLabel(one) }));
  return { ...plate, choose: { value: car, options, onChoose: actions.chooseCar } };
}

function syncOf(state: AppState): { state: SyncState; word: string; href?: string } | undefined {
  const waiting = state.waiting + state.waiting_photos;
  if (state.attention > 0) return { state: "problem", word: common.attentionCount(state.attention), href: "#/reports" };
  if (state.fetched !== null) return { state: "live", word: words.fetched(state.fetched) };
  if (waiting > 0) return { state: state.unreachable ? "offline" : "waiting", word: common.waitingCount(waiting) };
  if (state.unreachable) return { state: "offline", word: state.failed ? words.serverError : words.noSignal };
  return state.last_heard ? { state: "live", word: words.live } : undefined;
}

function personOf({ identity, identities }: AppState, people: { isOpen: boolean; toggle: () => void }) {
  if (!identity) return undefined;
  const text = initialsOf(identity.name);
  if (identities.length < 2) return { text, label: words.me(identity.name), href: "#/me" };
  return { text, label: common.whoNow(identity.name), onOpen: people.toggle, open: people.isOpen };
}

/** "TM" for Toma Marsh, "To" for Toma. */
function initialsOf(name: string): string {
  const [first = "", second] = name.trim().split(/\s+/);
  const letters = second ? [...first].slice(0, 1).concat([...second].slice(0, 1)) : [...first].slice(0, 2);
  return letters.join("");
}

// The hash is the route, so the link cannot jump by itself.
function skip(event: Event): void {
  event.preventDefault();
  document.getElementById("screen")?.focus();
}
