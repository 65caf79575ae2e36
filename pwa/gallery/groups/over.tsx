/** What lies over a screen: a sheet, and the message bar above the tabs. */

import { useState } from "preact/hooks";
import { AppBar } from "../../src/view/ui/AppBar";
import { Button } from "../../src/view/ui/Button";
import { Dock } from "../../src/view/ui/Dock";
import { Frame } from "../../src/view/ui/Frame";
import { MessageBar } from "../../src/view/ui/MessageBar";
import { List, Row, SectionHeader } from "../../src/view/ui/Row";
import { Sheet } from "../../src/view/ui/Sheet";
import { Tabs } from "../../src/view/ui/Tabs";
import { Case, nothing } from "../Case";
import { PERSON, PHONE, PLATE } from "./bars";

function Reasons({ onClose }: { onClose: () => void }) {
  const dock = <Dock primary={{ children: "Inspect this corner", onClick: onClose }} />;
  return (
    <Sheet open title="Why the car is held" closeLabel="Close" onClose={onClose} dock={dock}>
      <SectionHeader title="Front right corner" meta="3" tone="hold" level={3} />
      <List>
        <Row tone="inspect" title="Brake hose" meta="cracked · SS7 km 9.8" figure="9 min" href="#hose" />
        <Row tone="inspect" title="Track rod" meta="bent · SS7 km 9.8" figure="11 min" href="#rod" />
      </List>
    </Sheet>
  );
}

export function Over() {
  const [open, setOpen] = useState(false);
  const [message, setMessage] = useState(0);
  const shown = {
    id: String(message),
    text: "Finished: brake hose, front right.",
    undo: { label: "Undo", onUndo: nothing },
  };
  return (
    <Frame
      bar={<AppBar plate={PLATE} title="Sheet and message bar" heading person={PERSON} />}
      message={
        <MessageBar
          message={message > 0 ? shown : null}
          place="over"
          dismissLabel="Dismiss"
          onGone={() => setMessage(0)}
        />
      }
      tabs={<Tabs label="Screens" destinations={PHONE} current="queue" />}
    >
      <div class="gallery-gap">
        <Case name="Sheet; message bar" as="row">
          <Button onClick={() => setOpen(true)}>Open the sheet</Button>
          <Button onClick={() => setMessage((now) => now + 1)}>Say something</Button>
        </Case>
        {open && <Reasons onClose={() => setOpen(false)} />}
      </div>
    </Frame>
  );
}
