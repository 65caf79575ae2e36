/** What was found at a check that is not OK: the part and how bad, filed as a report while the inspection goes on. */

import type { Condition } from "../../kit/api";
import { EMPTY_BODY } from "../../report/body";
import { entriesOf } from "../../report/lists";
import type { PlaceCheck } from "../../report/looks";
import { prefill } from "../../report/prefill";
import { ProblemLine } from "../bits/Problem";
import { useDraft } from "../bits/useDraft";
import { useOpen } from "../bits/useOpen";
import { usePending } from "../bits/usePending";
import { componentLabel, conditionLabel } from "../labels";
import { conditionChips } from "../log/likely";
import { Button } from "../ui/Button";
import { Banner } from "../ui/Card";
import { Chips } from "../ui/Choice";
import { SelectField } from "../ui/Field";
import { common } from "../words/common";
import { looks } from "../words/looks";
import { places as words } from "../words/places";
import type { FormProps } from "./InspectForm";

interface FileProps extends FormProps {
  one: PlaceCheck;
  /** What was filed from this check, in words. */
  filed: string | null;
  onFiled: (what: string) => void;
}

export function FileFinding(props: FileProps) {
  const form = useOpen();
  if (props.filed !== null) return <Banner tone="done">{words.filed(props.filed)}</Banner>;
  if (!form.isOpen) {
    return (
      <Button icon="add" expanded={false} onClick={form.open}>
        {words.file}
      </Button>
    );
  }
  return <FindingForm {...props} />;
}

interface Found {
  component: string;
  condition: Condition | null;
}

function FindingForm(props: FileProps) {
  const { setup, zone, one } = props;
  const map = setup.car_map;
  const concerned = one.jobs.map((key) => key.slice(key.indexOf("/") + 1)).filter((part) => part !== "unknown");
  const others = (map.zones[zone]?.components ?? []).filter((part) => !concerned.includes(part));
  const { draft, change } = useDraft<Found>({
    component: concerned.length === 1 ? (concerned[0] ?? "") : "",
    condition: null,
  });
  const { busy, problem, run } = usePending();
  const named = (part: string) => ({ value: part, label: componentLabel(map, part) });
  const pick = (component: string) => change({ component, condition: null });
  const file = () => run(() => fileIt(props, draft), draft.component && draft.condition ? null : words.fileNeeds);
  return (
    <div class="place-file">
      <Chips legend={words.fileWhich} options={concerned.map(named)} chosen={[draft.component]} onToggle={pick} />
      {others.length > 0 && (
        <SelectField
          label={words.fileOther}
          value={others.includes(draft.component) ? draft.component : ""}
          options={[{ value: "", label: common.choose }, ...others.map(named)]}
          onChange={pick}
        />
      )}
      {draft.component && (
        <Chips<Condition>
          legend={words.fileHow}
          even
          options={conditionChips(map, draft.component)
            .filter((value) => value !== "unknown")
            .map((value) => ({ value, label: conditionLabel(value) }))}
          chosen={draft.condition ? [draft.condition] : []}
          onToggle={(condition) => change({ condition })}
        />
      )}
      <ProblemLine text={problem} />
      <Button kind="primary" busy={busy} onClick={file}>
        {words.fileDo}
      </Button>
    </div>
  );
}

async function fileIt(props: FileProps, { component, condition }: Found): Promise<void> {
  const { state, setup, car, actions, zone, one, onFiled } = props;
  if (!condition) return;
  const entries = entriesOf(state.entries);
  const { stage } = prefill(entries, car, setup, state.now);
  const findings = [{ component, condition }];
  await actions.fileReport({ ...EMPTY_BODY, where: "service", stage, zone, findings, note: looks.named(one.check) });
  onFiled(common.partIs(componentLabel(setup.car_map, component), conditionLabel(condition)));
}
