/** What stands round every screen: app bar, hold strip, dock, tabs, side bar. */

import { AppBar, type SyncState } from "../../src/view/ui/AppBar";
import { Dock } from "../../src/view/ui/Dock";
import { HoldStrip } from "../../src/view/ui/HoldStrip";
import { type Destination, SideBar, Tabs } from "../../src/view/ui/Tabs";
import { Case, nothing } from "../Case";

export const PHONE: Destination[] = [
  { id: "queue", label: "Queue", icon: "queue", href: "#queue", count: { number: 4, label: "4 to inspect" } },
  { id: "service", label: "Service", icon: "service", href: "#service" },
  { id: "log", label: "Log", icon: "log", href: "#log" },
  { id: "more", label: "More", icon: "more", href: "#more" },
];
export const WIDE: Destination[] = [
  ...PHONE.slice(0, 2),
  { id: "reports", label: "Reports", icon: "reports", href: "#reports" },
  { id: "costs", label: "Costs", icon: "costs", href: "#costs" },
  { id: "handover", label: "Hand-over", icon: "handover", href: "#handover" },
  { id: "documents", label: "Documents", icon: "documents", href: "#documents" },
  { id: "season", label: "Season", icon: "season", href: "#season" },
  { id: "setup", label: "Set-up", icon: "setup", href: "#setup" },
];
const CARS = [
  { value: "41", label: "Car 41, our own" },
  { value: "42", label: "Car 42, hired out" },
];
export const PLATE = { text: "41", label: "Car 41, change", onOpen: nothing };
export const PERSON = { text: "BK", label: "Bodo Krell", onOpen: nothing };
export const WHY = { word: "Why", label: "Why the car is held", open: false, onToggle: nothing };

const SYNCS: [SyncState, string, string][] = [
  ["live", "live", "leave bay 10:37 · 22 min left"],
  ["waiting", "2 waiting", "Thornquell 16.4 km"],
  ["offline", "no signal", "12 today · 2 waiting to be sent"],
  ["problem", "not sent", "1 needs review"],
];

function AppBars() {
  return (
    <Case
      name="App bar: live, waiting, offline, problem; a list of cars and a way back; opened from another screen"
      as="bleed"
    >
      {SYNCS.map(([state, word, context]) => (
        <AppBar key={state} plate={PLATE} title="Service D" context={context} sync={{ state, word }} person={PERSON} />
      ))}
      <AppBar
        plate={{ ...PLATE, onOpen: undefined, choose: { value: "41", options: CARS, onChoose: nothing } }}
        back={{ label: "Back", onBack: nothing }}
        title="After SS8"
        context="Service D at 10:12"
        sync={{ state: "problem", word: "Attention: 1", href: "#reports" }}
        person={{ text: "Od", label: "Odil: me and this phone", href: "#me" }}
      />
      <AppBar
        back={{ label: "Back to the queue", onBack: nothing }}
        title="Brake hose, front right"
        heading
        context="Front right corner · car 41"
        sync={{ state: "live", word: "live" }}
        more={{ label: "More for this job", onOpen: nothing }}
      />
    </Case>
  );
}

function Strips() {
  return (
    <Case name="Hold strip: held, its reasons open, nothing open, not known" as="bleed">
      <HoldStrip state="hold" word="HOLD" text="4 to inspect" why={WHY} />
      <HoldStrip state="hold" word="HOLD" text="needs an inspector after the repair" why={{ ...WHY, open: true }} />
      <HoldStrip state="nothing" word="Nothing open" text="in the log" />
      <HoldStrip state="unknown" word="Not known" text="1 entry is not sent yet" why={WHY} />
    </Case>
  );
}

function Docks() {
  return (
    <>
      <Case name="Dock: two actions; one that can't be pressed yet, and why" as="bleed">
        <Dock primary={{ children: "Finish · 6:12" }} secondary={{ children: "Stop" }} />
        <Dock
          note={<span id="dock-why">Choose what is damaged first.</span>}
          primary={{ children: "Sign", unavailable: "dock-why" }}
          secondary={{ children: "Add finding", icon: "add" }}
        />
      </Case>
      <Case name="Dock: being done; danger; Save in the car" as="bleed">
        <Dock primary={{ children: "Sending", busy: true }} />
        <Dock
          note="Team check only. Scrutineers and the event's regulations decide."
          primary={{ children: "Sign as not passed", kind: "danger" }}
        />
        <Dock
          note="Wheel rim bent, front left · also checks hub, arm, steering, brake hose"
          primary={{ children: "Save", size: "save" }}
        />
      </Case>
    </>
  );
}

export function Bars() {
  return (
    <>
      <AppBars />
      <Strips />
      <Docks />
      <Case name="Tabs (narrow) or side bar (wide)" as="bleed">
        <Tabs label="Screens" destinations={PHONE} current="queue" />
        <div class="gallery-side">
          <SideBar label="Screens, wide" destinations={WIDE} current="costs" brand="Shuntbook">
            Thornquell Gravel Days
            <br />
            13–14 June
          </SideBar>
        </div>
      </Case>
    </>
  );
}
