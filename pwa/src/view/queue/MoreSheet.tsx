/** What is seldom wanted of the queue. */

import type { Job } from "../../kit/api";
import { List, Row } from "../ui/Row";
import { Sheet } from "../ui/Sheet";
import { common } from "../words/common";
import { documents } from "../words/documents";
import { queue } from "../words/queue";
import { canTick } from "./TickSeveral";
import "./reasons.css";

interface MoreProps {
  jobs: Job[];
  works: boolean;
  onTick: () => void;
  onClose: () => void;
}

export function MoreSheet({ jobs, works, onTick, onClose }: MoreProps) {
  const tick = () => {
    onClose();
    onTick();
  };
  return (
    <Sheet open title={queue.more} closeLabel={common.close} onClose={onClose}>
      <div class="hold-reasons">
        <List>
          {jobs.filter(canTick).length > 1 && <Row title={queue.tick.open} meta={queue.tick.about} onOpen={tick} />}
          {works && <Row title={documents.link} meta={queue.documentsAbout} href="#/documents" onFollow={onClose} />}
          <Row title={common.navLabel.reports ?? ""} meta={queue.reportsAbout} href="#/reports" onFollow={onClose} />
        </List>
      </div>
    </Sheet>
  );
}
