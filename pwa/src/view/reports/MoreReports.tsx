/** What is seldom wanted of the reports. */

import { List, Row } from "../ui/Row";
import { Sheet } from "../ui/Sheet";
import { common } from "../words/common";
import { reports as words } from "../words/reports";
import "../queue/reasons.css";

const WAYS = ["codes", "handover", "incidents"] as const;

export function MoreReports({ onClose }: { onClose: () => void }) {
  return (
    <Sheet open title={words.more} closeLabel={common.close} onClose={onClose}>
      <div class="hold-reasons">
        <List>
          {WAYS.map((way) => (
            <Row key={way} title={words.ways[way]} href={`#/${way}`} onFollow={onClose} />
          ))}
        </List>
      </div>
    </Sheet>
  );
}
