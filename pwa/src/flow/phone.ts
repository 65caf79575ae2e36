/** What a person does with the app itself: open a screen, choose, join, switch, send now, keep. */

import { writeMeta } from "../store/meta";
import type { Core, RunningCore } from "./core";
import { askInstall } from "./install";
import { join, speakAs } from "./joining";
import { askToKeep, lookAtStore } from "./storage";
import { setTabChoice } from "./tab";

/** Open a screen. */
export function go(_core: Core, route: string): void {
  location.hash = `#/${route.replace(/^#?\/?/, "")}`;
}

/** Show another event. */
export function chooseEvent(core: Core, event: string): void {
  void choose(core, "event", event);
}

/** Show another car. */
export function chooseCar(core: Core, car: string): void {
  void choose(core, "car", car);
}

/** Join by a code; `pin`: chosen for the person who joins, or "" for none yet. Why it failed stands in `join_problem`. */
export async function joinHere(core: RunningCore, code: string, pin: string): Promise<void> {
  await join(core, code, pin);
  lookAtStore(core);
  whoChanged(core);
}

/** Speak as another person who joined here. `pin`: asked where that person chose one. Errors: UserError. */
export async function switchPerson(core: RunningCore, person: string, pin: string): Promise<void> {
  await checkPinOf(core, person, pin);
  await speakAs(core, person);
  whoChanged(core);
}

/** Send what waits, and ask for what is new. */
export function syncNow(core: RunningCore): Promise<void> {
  return core.running.outbox.sync();
}

/** Have the browser ask whether the app goes onto the home screen, then whether it keeps the log. */
export async function install(core: Core): Promise<void> {
  core.page.install = null;
  // A browser that said no to keeping the log of a page says yes for an app on the home screen.
  void askInstall().then(() => askToKeep(core));
  await core.refresh();
}

/** Take the sentence off the screen. */
export function dismiss(core: Core): void {
  core.page.message = null;
  void core.refresh();
}

async function choose(core: Core, what: "event" | "car", value: string): Promise<void> {
  core.page[what] = value;
  setTabChoice(what, value);
  try {
    await writeMeta(await core.db, what === "event" ? "last_event" : "last_car", value);
    await core.refresh();
    await core.askAnswers();
  } catch (error) {
    // The phone is full: the outbox tries until there is room, and then asks for what is shown.
    if (!(error instanceof DOMException)) throw error;
    core.written();
  }
}

async function checkPinOf(core: Core, person: string, pin: string): Promise<void> {
  const identity = core.snapshot().state.identities.find((one) => one.person === person);
  if (identity?.has_pin) await (await import("./pins")).checkPin(core, identity.device, pin);
}

function whoChanged(core: RunningCore): void {
  core.running.live.check();
  void core.running.outbox.sync();
}
