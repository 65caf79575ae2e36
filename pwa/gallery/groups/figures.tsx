/** Figures, tiles, cards, banners, empty states, progress. */

import { Button } from "../../src/view/ui/Button";
import { Banner, Card, EmptyState, Facts, Progress } from "../../src/view/ui/Card";
import { Figure, Tile, Tiles } from "../../src/view/ui/Figure";
import { Tag } from "../../src/view/ui/Tag";
import { Case } from "../Case";

function Numbers() {
  return (
    <>
      <Case name="Figure: largest, large, usual; hold, must, done" as="row">
        <Figure size="largest" value="21:40" label="to leave the bay at 10:37" />
        <Figure value="118" unit="min" label="of work" />
        <Figure size="usual" value="4" label="to inspect" tone="hold" />
        <Figure size="usual" value="5 min" label="late at worst" tone="must" />
        <Figure size="usual" value="9 of 10" label="on time" tone="done" />
      </Case>
      <Case name="Tiles">
        <Tiles>
          <Tile label="Estimate" value="1,135.32" />
          <Tile label="Actual" value="635.13" />
          <Tile label="Adjustments" value="−59.80" />
          <Tile label="Total with 19 % tax" value="684.64" unit="EUR" />
        </Tiles>
      </Case>
    </>
  );
}

const FACTS = [
  { name: "Replace", value: "6 min, then bleed 3 min with two" },
  { name: "First", value: "on stands, wheel off" },
  {
    name: "Parts",
    value: (
      <>
        1 hose · 2 washers <Tag tone="done">in the van</Tag>
      </>
    ),
  },
];

function Cards() {
  return (
    <Case name="Card: usual, strong; facts">
      <Card title="Stone, SS7 km 9.8">
        <p>“Cover cut to the braid, dry.” Toma, 08:44</p>
      </Card>
      <Card title="Lift the front" strong>
        <p>10:14–10:16 · everybody else clear</p>
        <Button kind="primary">Done</Button>
      </Card>
      <Card>
        <Facts facts={FACTS} />
      </Card>
    </Case>
  );
}

function Banners() {
  return (
    <Case name="Banner: note, caution, hold, done; with actions">
      <Banner tone="note" title="What that means.">
        A hit of 1,200.00 costs the customer 1,200.00. Wear is not charged.
      </Banner>
      <Banner tone="caution" title="Stands, never the jack alone.">
        Pump the pedal before the car moves.
      </Banner>
      <Banner tone="hold" title="Banjo weeps at the washer">
        becomes a job when you save.
      </Banner>
      <Banner tone="done" title="Ready to work without signal" />
      <Banner tone="caution" title="Not sent." actions={<Button>Try again</Button>}>
        The server refused one entry.
      </Banner>
    </Case>
  );
}

export function Figures() {
  return (
    <>
      <Numbers />
      <Cards />
      <Banners />
      <Case name="Progress: begun, done, not known">
        <Progress label="Getting ready to work without signal" text="96 of 150" value={96} most={150} />
        <Progress label="Photos sent" text="12 of 12" value={12} most={12} />
        <Progress label="Improving the plan" />
      </Case>
      <Case name="Empty: nothing yet, offline">
        <EmptyState icon="reports" title="No report yet" action={<Button kind="primary">Log a hit</Button>}>
          What you log stands here, sent or not.
        </EmptyState>
        <EmptyState icon="offline" title="No answer from the server">
          The queue of 10:12 is shown as soon as it was fetched once.
        </EmptyState>
      </Case>
    </>
  );
}
