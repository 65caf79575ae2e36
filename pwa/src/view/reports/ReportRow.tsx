/** One report as a row: what and where, who said it when, a photo of it, and whether it has gone out. */

import type { EventSetup } from "../../kit/api";
import type { Actions, Sending } from "../../flow/model";
import { bodyOf } from "../../report/body";
import type { EffectiveReport } from "../../report/effective";
import { useUrl } from "../bits/Photo";
import { personName, timeOf, zoneLabel } from "../labels";
import { whatSaid } from "../log/said";
import { Icon } from "../ui/Icon";
import type { Tone } from "../ui/Mark";
import { Row } from "../ui/Row";
import { Tag } from "../ui/Tag";
import { common } from "../words/common";
import { reports as words } from "../words/reports";

interface ReportRowProps {
  report: EffectiveReport;
  setup: EventSetup;
  actions: Pick<Actions, "photoUrl">;
  /** Something was said aloud about it. */
  hasVoice: boolean;
  /** It is shown beside the list. */
  current: boolean;
}

const TONES: Record<Sending, Tone> = { sent: "done", waiting: "plain", attention: "hold" };

export function ReportRow({ report, setup, actions, hasVoice, current }: ReportRowProps) {
  const first = report.versions.find((version) => version.kind === "report.filed");
  const body = report.withdrawn && first ? bodyOf(first) : report.body;
  const map = setup.car_map;
  const said = whatSaid({ ...body, zone: null }, map);
  const isPlace = body.findings.length + body.symptoms.length === 0;
  const km = body.km === null ? "" : common.km(body.km);
  const who = `${personName(setup, report.person)} ${timeOf(setup, report.at)}`;
  const meta = [isPlace ? words.placeOnly : zoneLabel(map, body.zone), km, who].filter(Boolean).join(" · ");
  const [photo] = body.photos;
  return (
    <Row
      title={isPlace ? zoneLabel(map, body.zone) : said}
      meta={
        <>
          {meta}
          {report.withdrawn && <Tag>{words.withdrawn}</Tag>}
          {report.two_versions && <Tag tone="must">{common.twoVersions}</Tag>}
        </>
      }
      figure={<Tag tone={TONES[report.sending]}>{words.sending[report.sending]}</Tag>}
      photo={
        photo ? <Thumb sha256={photo} photoUrl={actions.photoUrl} /> : <Icon name={hasVoice ? "voice" : "reports"} />
      }
      href={`#/report/${encodeURIComponent(report.report)}`}
      current={current}
    />
  );
}

/** Decoration: the report's own page has its photos with words. */
function Thumb({ sha256, photoUrl }: { sha256: string; photoUrl: Actions["photoUrl"] }) {
  const url = useUrl(sha256, 320, photoUrl);
  return url === null ? <Icon name="camera" /> : <img src={url} alt="" loading="lazy" />;
}
