/** Opens the phone's camera and keeps the picture; the report is saved already, so nothing waits for it. */

import type { Actions } from "../../flow/model";
import { log } from "../words/log";
import { Icon } from "./Icon";
import { ProblemLine } from "./Problem";
import { usePending } from "./usePending";

interface PhotoAdder {
  keepPhoto: Actions["keepPhoto"];
  onKept: (sha256: string) => Promise<void> | void;
}

export function PhotoAdder({ keepPhoto, onKept }: PhotoAdder) {
  const { busy, problem, run } = usePending();
  const take = (input: HTMLInputElement) => {
    const file = input.files?.[0];
    if (file) run(async () => onKept(await keepPhoto(file)));
    input.value = "";
  };
  return (
    <div class="stack">
      <label class="button file wide">
        <Icon name="camera" />
        <span>{busy ? log.photoBusy : log.photoAdd}</span>
        <input
          type="file"
          accept="image/*"
          capture="environment"
          disabled={busy}
          onChange={(event) => take(event.currentTarget)}
        />
      </label>
      <ProblemLine text={problem} />
    </div>
  );
}
