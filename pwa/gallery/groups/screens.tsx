/** Two screens made of nothing but components: what they are for, on a phone and on a laptop. */

import { useState } from "preact/hooks";
import { AppBar } from "../../src/view/ui/AppBar";
import { Button } from "../../src/view/ui/Button";
import { Card, Facts } from "../../src/view/ui/Card";
import { Figure, Tile, Tiles } from "../../src/view/ui/Figure";
import { Frame } from "../../src/view/ui/Frame";
import { HoldStrip } from "../../src/view/ui/HoldStrip";
import { Money } from "../../src/view/ui/Money";
import { Table } from "../../src/view/ui/Table";
import { SideBar, Tabs } from "../../src/view/ui/Tabs";
import { Tag } from "../../src/view/ui/Tag";
import { PERSON, PHONE, PLATE, WHY, WIDE } from "./bars";
import { JobRows } from "./lists";
import { COLUMNS, jobOf, LINES } from "./tables";

const SIDE = (current: string) => (
  <SideBar label="Screens, wide" destinations={WIDE} current={current} brand="Shuntbook">
    Thornquell Gravel Days
    <br />
    13–14 June · live
  </SideBar>
);

/** The mechanic's: six jobs in the first screenful. */
export function Queue() {
  return (
    <Frame
      bar={
        <AppBar
          plate={PLATE}
          title="Service D"
          heading
          context="leave bay 10:37 · 22 min left"
          sync={{ state: "live", word: "live" }}
          person={PERSON}
        />
      }
      strip={<HoldStrip state="hold" word="HOLD" text="4 to inspect" why={WHY} />}
      tabs={<Tabs label="Screens" destinations={PHONE} current="queue" />}
      side={SIDE("queue")}
    >
      <JobRows />
    </Frame>
  );
}

function Chosen() {
  return (
    <Card title="Brake caliper, rear right">
      <p>
        SS8 · Rens drove · reported at the time <Tag tone="done">1 of 2 included</Tag>
      </p>
      <Facts
        facts={[
          { name: "Caliper, rear", value: <Money amount="145.00" /> },
          { name: "Labour 31.5 min × 55.00/h", value: <Money amount="28.88" /> },
          { name: "Sum", value: <Money amount="173.88" currency="EUR" strong /> },
        ]}
      />
      <Button>Adjust</Button>
    </Card>
  );
}

/** The manager's: the total first, then the table with its row beside it. */
export function Costs() {
  const [current, setCurrent] = useState<string | null>("Brake caliper");
  return (
    <Frame
      bar={
        <AppBar
          plate={{ ...PLATE, text: "42" }}
          title="Costs"
          heading
          context="hired to Marlies Ohm"
          sync={{ state: "live", word: "live" }}
          person={{ ...PERSON, text: "VN" }}
        />
      }
      tabs={<Tabs label="Screens" destinations={PHONE} current="costs" />}
      side={SIDE("costs")}
      list={
        <div class="gallery-stack">
          <Figure value="684.64" unit="EUR" label="in all, with 19 % tax" />
          <Tiles>
            <Tile label="Estimate" value="1,135.32" />
            <Tile label="Actual" value="635.13" />
            <Tile label="Adjustments" value="−59.80" />
            <Tile label="Per stage km" value="5.97" />
          </Tiles>
          <Table
            caption="Costs by job"
            quiet
            columns={COLUMNS}
            rows={LINES}
            keyOf={jobOf}
            totalLabel="Total"
            empty="No job has costs yet."
            current={current}
            onOpen={(line) => setCurrent(line.job)}
          />
        </div>
      }
    >
      <Chosen />
    </Frame>
  );
}
