/** Buttons, segmented control, chips, stepper. */

import { useState } from "preact/hooks";
import { Button, IconButton } from "../../src/view/ui/Button";
import { Chips, Segmented } from "../../src/view/ui/Choice";
import { Stepper } from "../../src/view/ui/Stepper";
import { Case, nothing } from "../Case";

const of = <V extends string>(...labels: V[]) => labels.map((value) => ({ value, label: value }));

function Buttons() {
  return (
    <>
      <Case name="Button: primary, secondary, text, danger" as="row">
        <Button kind="primary">Use this plan</Button>
        <Button icon="camera">Photo</Button>
        <Button kind="text">18 more</Button>
        <Button kind="danger">Withdraw</Button>
      </Case>
      <Case name="Button: can't be pressed yet, being done, in the car, a link, icons alone" as="row">
        <Button kind="primary" unavailable="why-not">
          Sign
        </Button>
        <span id="why-not">Six of nine are answered.</span>
        <Button kind="primary" busy>
          Sending
        </Button>
        <Button size="car" icon="walk">
          Walk round
        </Button>
        <Button href="#plan">Plan</Button>
        <IconButton icon="back" label="Back" onClick={nothing} />
        <IconButton icon="more" label="More" onClick={nothing} />
      </Case>
      <Case name="Button: as wide as its place">
        <Button kind="primary" wide>
          Log a hit
        </Button>
      </Case>
    </>
  );
}

function Choices() {
  const [side, setSide] = useState<string | null>("Top");
  const [drives, setDrives] = useState<string | null>(null);
  const [parts, setParts] = useState<string[]>(["Wheel rim"]);
  const [bad, setBad] = useState("Bent");
  const toggle = (part: string, on: boolean) =>
    setParts((now) => (on ? [...now, part] : now.filter((one) => one !== part)));
  return (
    <>
      <Case name="Segmented control: chosen, nothing chosen yet">
        <Segmented legend="Side of the car" quiet options={of("Top", "Under")} value={side} onChange={setSide} />
        <Segmented
          legend="Does it still drive?"
          options={of("Well", "Badly", "No")}
          value={drives}
          onChange={setDrives}
        />
      </Case>
      <Case name="Chips: several, one, with icons">
        <Chips
          legend="What is damaged?"
          several
          options={of("Wheel rim", "Tyre", "Lower arm", "Track rod", "Strut", "Arch liner", "Mud flap")}
          chosen={parts}
          onToggle={toggle}
        />
        <Chips
          legend="How bad?"
          even
          options={of("Marked", "Bent", "Cracked", "Broken", "Loose", "Leaking", "Missing", "Not sure")}
          chosen={[bad]}
          onToggle={setBad}
        />
        <Chips
          legend="With it"
          several
          options={[
            { value: "photo", label: "Photo", icon: "camera" },
            { value: "voice", label: "Voice", icon: "voice" },
          ]}
          chosen={["photo"]}
          onToggle={nothing}
        />
      </Case>
    </>
  );
}

export function Actions() {
  const [minutes, setMinutes] = useState(14);
  const words = { less: "One minute less", more: "One minute more" };
  return (
    <>
      <Buttons />
      <Choices />
      <Case name="Stepper: between its ends, at its least">
        <Stepper label="Worked" value={minutes} least={0} text={`${minutes} min`} words={words} onChange={setMinutes} />
        <Stepper
          label="Pressure, front left"
          value={1}
          least={1}
          most={3}
          step={0.05}
          text="1.00 bar"
          words={{ less: "0.05 bar less", more: "0.05 bar more" }}
          onChange={nothing}
        />
      </Case>
    </>
  );
}
