/** What an amendment starts with: the report as it stands, all its versions together. Pure. */

import type { CarMap, ComponentFinding, ReportBody } from "../../kit/api";
import { bodyOf } from "../../report/body";
import { conditionsOf } from "../../report/conditions";
import type { EffectiveReport } from "../../report/effective";

/**
 * The newest version that says something, with the findings (the worse condition), symptoms and photos of the
 * others in the same zone: so that making one of two versions drops nothing by itself.
 */
export function merged(report: EffectiveReport, map: CarMap): ReportBody {
  const bodies = report.heads.filter((head) => head.kind !== "report.withdrawn").map((head) => bodyOf(head));
  const same_zone = bodies.filter((body) => body.zone === report.body.zone);
  return {
    ...report.body,
    findings: worstOf(
      same_zone.flatMap((body) => body.findings),
      map,
    ),
    symptoms: [...new Set(bodies.flatMap((body) => body.symptoms))],
    photos: [...new Set(bodies.flatMap((body) => body.photos))],
  };
}

function worstOf(findings: ComponentFinding[], map: CarMap): ComponentFinding[] {
  const worst = new Map<string, ComponentFinding>();
  for (const finding of findings) {
    const order = conditionsOf(finding.component, map);
    const known = worst.get(finding.component);
    if (!known || order.indexOf(finding.condition) > order.indexOf(known.condition))
      worst.set(finding.component, finding);
  }
  return [...worst.values()];
}
