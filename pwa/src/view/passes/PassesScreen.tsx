/** Inspections that were signed as passed and do not cover all that they name: which, and why. */

import type { PassReason, UncountedPass } from "../../kit/api";
import { isWorking } from "../../report/road";
import { heardAt, jobLabel, personName, timeOf } from "../labels";
import { jobHref } from "../queue/links";
import type { CarScreen } from "../screen";
import { EmptyState } from "../ui/Card";
import { SectionHeader } from "../ui/Row";
import { Tag } from "../ui/Tag";
import { looks } from "../words/looks";
import { passes as words } from "../words/passes";
import "./passes.css";

export function PassesScreen(props: CarScreen) {
  const { state, setup } = props;
  const held = state.passes;
  const all = held?.answer.passes ?? [];
  const open = all.filter(({ inspection }) => inspection === "needed" || inspection === "failed");
  const rest = all.filter((one) => !open.includes(one));
  return (
    <div class="passes">
      <h1>{words.title}</h1>
      {!isWorking(state.identity?.roles ?? []) && <p>{words.notFor}</p>}
      {isWorking(state.identity?.roles ?? []) && !held && (
        <EmptyState icon="offline" title={words.notHere}>
          {words.notHereAbout}
        </EmptyState>
      )}
      {held && <p>{words.how}</p>}
      {held && all.length === 0 && (
        <EmptyState icon="done" title={words.none}>
          {words.noneAbout}
        </EmptyState>
      )}
      {open.length > 0 && (
        <section aria-labelledby="passes-open">
          <SectionHeader id="passes-open" title={words.open} meta={String(open.length)} tone="hold" />
          <Passes {...props} passes={open} />
        </section>
      )}
      {rest.length > 0 && (
        <details open={open.length === 0}>
          <summary>{words.since(rest.length)}</summary>
          <Passes {...props} passes={rest} />
        </details>
      )}
      {held && <p class="passes-note">{words.heard(heardAt(setup, held.heard_at, state.now))}</p>}
    </div>
  );
}

function Passes({ passes, ...props }: CarScreen & { passes: UncountedPass[] }) {
  return (
    <ul class="passes-list">
      {passes.map((one) => (
        <Pass key={one.entry} {...props} pass={one} />
      ))}
    </ul>
  );
}

function Pass({ pass, ...props }: CarScreen & { pass: UncountedPass }) {
  const { setup } = props;
  const name = personName(setup, pass.person);
  return (
    <li>
      <a href={jobHref(pass.job)}>{jobLabel(setup.car_map, pass.job)}</a>
      <p class="passes-note">
        {words.signed(name, timeOf(setup, pass.at))} {pass.counted_before && <Tag tone="hold">{words.before}</Tag>}
      </p>
      <ul class="passes-why">
        {pass.reasons.map((reason) => (
          <li key={`${reason.why} ${reason.checks.join()} ${reason.entries.join()}`}>
            <span>{sentenceOf(reason, name, pass.until ?? "")}</span>
            <span class="passes-note">{words.about(reason.entries.map((entry) => whatIs(entry, props)))}</span>
          </li>
        ))}
      </ul>
    </li>
  );
}

function sentenceOf({ why, checks }: PassReason, name: string, until: string): string {
  return words.why[why]?.(name, until, checks.map(looks.named).join(", ")) ?? why;
}

/** What an entry is, who wrote it and when; its id's first letters where this phone does not hold it. */
function whatIs(id: string, { state, setup }: CarScreen): string {
  const entry = state.entries.find((one) => one.entry.id === id)?.entry;
  if (!entry) return id.slice(0, 8);
  const [name, time] = [personName(setup, entry.person), timeOf(setup, entry.at)];
  if (entry.kind === "job.finished") return words.repair(name, time);
  return entry.kind.startsWith("report.") ? words.report(name, time) : words.inspection(name, time);
}
