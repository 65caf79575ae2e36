/** What a person does with the app itself: go, choose, join, switch, send now, keep. */

import { lookOf } from "../report/fresh";
import { writeLook, writeMeta } from "../store/meta";
import type { RunningCore } from "./core";
import { askInstall } from "./install";
import { join, speakAs } from "./joining";
import { askToKeep, lookAtStore } from "./storage";
import type { Actions } from "./model";
import { setTabChoice } from "./tab";
import { takeUpdate } from "./update";

type PhoneActions = Pick<
  Actions,
  | "go"
  | "chooseEvent"
  | "chooseCar"
  | "join"
  | "switchPerson"
  | "setPin"
  | "asideHere"
  | "reviewAside"
  | "syncNow"
  | "applyUpdate"
  | "askToKeep"
  | "install"
  | "dismiss"
  | "lookedAtQueue"
>;

/** Make the actions. */
export function phoneActions(core: RunningCore): PhoneActions {
  return {
    go(route) {
      location.hash = `#/${route.replace(/^#?\/?/, "")}`;
    },
    chooseEvent: (event) => void choose(core, "event", event),
    chooseCar: (car) => void choose(core, "car", car),
    async join(code, pin) {
      await join(core, code, pin);
      lookAtStore(core);
      whoChanged(core);
    },
    async switchPerson(person, pin) {
      await checkPinOf(core, person, pin);
      await speakAs(core, person);
      whoChanged(core);
    },
    setPin: async (pin, old) => (await import("./pins")).setPin(core, pin, old),
    asideHere: async () => (await import("./aside")).asideHere(core),
    reviewAside: async (...said) => (await import("./aside")).reviewAside(core, ...said),
    syncNow: () => core.running.outbox.kick(),
    applyUpdate: takeUpdate,
    askToKeep: async () => askToKeep(core),
    install: () => install(core),
    dismiss() {
      core.page.message = null;
      void core.refresh();
    },
    lookedAtQueue: () => lookedAtQueue(core),
  };
}

async function choose(core: RunningCore, what: "event" | "car", value: string): Promise<void> {
  core.page[what] = value;
  setTabChoice(what, value);
  await writeMeta(await core.db, what === "event" ? "last_event" : "last_car", value);
  await core.refresh();
  await core.askAnswers();
}

async function checkPinOf(core: RunningCore, person: string, pin: string): Promise<void> {
  const identity = core.snapshot().state.identities.find((one) => one.person === person);
  if (identity?.has_pin) await (await import("./pins")).checkPin(core, identity.device, pin);
}

function whoChanged(core: RunningCore): void {
  core.running.live.check();
  void core.running.outbox.kick();
}

// A browser that said no to keeping the log of a page says yes for an app on the home screen.
async function install(core: RunningCore): Promise<void> {
  core.page.install = null;
  void askInstall().then(() => askToKeep(core));
  await core.refresh();
}

async function lookedAtQueue(core: RunningCore): Promise<void> {
  const { identity, setup, car, queue } = core.snapshot().state;
  if (!identity || !setup || !car || !queue) return;
  await writeLook(await core.db, identity.person, setup.event, car, lookOf(queue.answer));
  core.running.tabs.tell("store");
  await core.refresh();
}
