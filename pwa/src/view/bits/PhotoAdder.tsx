/** Opens the phone's camera and keeps the picture; nothing that is said waits for it. */

import type { Actions } from "../../flow/model";
import { log } from "../words/log";
import { Icon } from "./Icon";
import { ProblemLine } from "./Problem";
import { usePending } from "./usePending";

interface PhotoAdder {
  keepPhoto: Actions["keepPhoto"];
  onKept: (sha256: string) => Promise<void> | void;
  label?: string;
}

export function PhotoAdder({ keepPhoto, onKept, label = log.photoAdd }: PhotoAdder) {
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
        <span>{busy ? log.photoBusy : label}</span>
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
