/** What a person does with the app itself: go, choose, join, switch, send now, keep. */

import { lookOf } from "../report/fresh";
import { writeLook, writeMeta } from "../store/meta";
import type { RunningCore } from "./core";
import { join, speakAs } from "./joining";
import type { Actions } from "./model";
import { askToPersist, isPersisted } from "./page";
import { setTabChoice } from "./tab";
import { takeUpdate } from "./update";

type PhoneActions = Pick<
  Actions,
  | "go"
  | "chooseEvent"
  | "chooseCar"
  | "join"
  | "switchPerson"
  | "syncNow"
  | "applyUpdate"
  | "askToKeep"
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
    async join(code) {
      await join(core, code);
      core.page.persisted = await isPersisted();
      whoChanged(core);
    },
    async switchPerson(person) {
      await speakAs(core, person);
      whoChanged(core);
    },
    syncNow: () => core.running.outbox.kick(),
    applyUpdate: takeUpdate,
    askToKeep: () => askToKeep(core),
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

function whoChanged(core: RunningCore): void {
  core.running.live.check();
  void core.running.outbox.kick();
}

async function askToKeep(core: RunningCore): Promise<void> {
  await askToPersist();
  core.page.persisted = await isPersisted();
  await core.refresh();
}

async function lookedAtQueue(core: RunningCore): Promise<void> {
  const { identity, setup, car, queue } = core.snapshot().state;
  if (!identity || !setup || !car || !queue) return;
  await writeLook(await core.db, identity.person, setup.event, car, lookOf(queue.answer));
  core.running.tabs.tell("store");
  await core.refresh();
}
