/** Section headers, rows, tags, marks. */

import { Button } from "../../src/view/ui/Button";
import { Icon } from "../../src/view/ui/Icon";
import { Mark, type Tone } from "../../src/view/ui/Mark";
import { List, Row, SectionHeader } from "../../src/view/ui/Row";
import { Tag } from "../../src/view/ui/Tag";
import { Case, nothing } from "../Case";

const TONES: Tone[] = ["hold", "inspect", "must", "done", "act", "plain"];
const photo = <span class="gallery-photo" />;

export function JobRows() {
  return (
    <>
      <SectionHeader id="holds" title="Holds the car" meta="4" tone="hold" />
      <List labelledBy="holds">
        <Row
          tone="inspect"
          title="Brake pipes, underfloor"
          meta="Underside middle · behind the floor hit, SS7"
          figure="2 min"
          under="inspect"
          href="#pipes"
        />
        <Row
          tone="inspect"
          title="Brake hose, front right"
          meta={
            <>
              cracked · SS7 km 9.8 <Tag>photo</Tag>
            </>
          }
          figure="9 min"
          under="Kasp"
          href="#hose"
        />
        <Row
          tone="inspect"
          title="Track rod, front right"
          meta={
            <>
              bent · SS7 km 9.8 <Tag tone="hold">1 part short</Tag>
            </>
          }
          figure="11 min"
          under="–"
          href="#rod"
        />
      </List>
      <SectionHeader id="must" title="Must do" meta="5" tone="must" />
      <List labelledBy="must">
        <Row
          tone="must"
          title="Spare wheel, boot"
          meta="used on the road · put back"
          figure="3 min"
          under="Bodo"
          href="#spare"
        />
        <Row tone="must" title="Mud flap, rear left" meta="missing · SS3" figure="4 min" under="–" href="#flap" />
      </List>
      <SectionHeader id="worth" title="Worth doing" meta="10" />
      <List labelledBy="worth">
        <Row tone="plain" title="Mirror, right side" meta="broken · SS8" figure="4 min" under="–" href="#mirror" />
      </List>
    </>
  );
}

export function Lists() {
  return (
    <>
      <Case name="Sections and rows: hold, must, worth" as="bleed">
        <JobRows />
      </Case>
      <Case name="Rows: photo, no photo, shown beside the list, only read, with an action, many words" as="bleed">
        <List>
          <Row
            photo={photo}
            title="Wheel rim bent"
            meta="Front left corner · km 8.2 · Toma 09:40"
            under="waiting"
            onOpen={nothing}
          />
          <Row
            photo={<Icon name="voice" />}
            title="Bang, nothing to see"
            meta="Left side · Toma 09:45"
            onOpen={nothing}
            current
          />
          <Row
            tone="done"
            toneLabel="Done"
            title="Torque wheel nuts"
            meta="by somebody who did not fit the wheel"
            figure="45 s"
          />
          <Row
            title="Lamp bracket"
            meta="with it: 6 times in 10"
            onOpen={nothing}
            action={<Button kind="text">Put in</Button>}
          />
          <Row
            tone="must"
            title="Hub, lower arm, ball joint, brake hose and track rod of the front right corner"
            meta="after the repair · 9 checks · not Kasp, not Bodo · the wheel is off anyway"
            figure="27 min"
            under="Anni, Odil"
            href="#hub"
          />
        </List>
      </Case>
      <Case name="Tags" as="row">
        {TONES.map((tone) => (
          <Tag key={tone} tone={tone}>
            {tone}
          </Tag>
        ))}
      </Case>
      <Case name="Marks" as="row">
        {TONES.map((tone) => (
          <Mark key={tone} tone={tone} label={tone} />
        ))}
      </Case>
    </>
  );
}
