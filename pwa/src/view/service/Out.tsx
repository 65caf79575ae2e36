/** Service out: the minute and what it costs by the event's rules, what is aboard for the road. */

import { clockIn } from "../../kit/time";
import { briefingOf } from "../../report/briefing";
import { leavingAt } from "../../report/leaving";
import { entriesOf } from "../../report/lists";
import { partName } from "../queue/partName";
import type { AtService } from "../screen";
import { Facts } from "../ui/Card";
import { service as words } from "../words/service";
import { minutesOf } from "./clock";

interface OutProps extends AtService {
  /** The time that is about to be saved, HH:MM on the officials' clock. */
  clock: string;
  due_out_ms: number;
}

/** "On time", or how many minutes off and what that costs. */
export function outText({ setup, clock, due_out_ms }: OutProps): string {
  const due = clockIn(setup.timezone, due_out_ms);
  const { late_min, early_min, penalty_s, is_out } = leavingAt(minutesOf(clock), minutesOf(due), setup);
  if (is_out) return words.out.beyond(late_min, setup.regulations.late_limit_minutes);
  if (late_min > 0) return words.out.late(late_min, penalty_s);
  return early_min > 0 ? words.out.early(early_min, penalty_s) : words.out.onTime;
}

export function Out(props: OutProps) {
  const { setup, clock, due_out_ms } = props;
  const aboard = aboardOf(props);
  const facts = [
    { name: words.due, value: clockIn(setup.timezone, due_out_ms) },
    { name: words.out.at(clock), value: outText(props) },
    { name: words.out.aboard, value: aboard.length > 0 ? aboard.join(", ") : words.out.nothing },
  ];
  return <Facts facts={facts} />;
}

function aboardOf({ state, setup, service }: OutProps): string[] {
  if (!state.queue) return [];
  const plan = state.plans.find((one) => one.plan.service === service.service)?.plan ?? null;
  const { aboard } = briefingOf({
    setup,
    service: service.service,
    queue: state.queue.answer,
    entries: entriesOf(state.entries),
    plan,
    release: state.release?.shown ?? "not-known",
    made_at: "",
  });
  return aboard.map(({ part, qty }) => `${qty} × ${partName(setup, part)}`);
}
