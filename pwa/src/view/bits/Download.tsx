/** Fetches a document, then offers it: two taps, since a phone's sharing must follow a tap at once. */

import { useEffect, useState } from "preact/hooks";
import type { Actions } from "../../flow/model";
import type { MadeFile, Progress } from "../../report/made_file";
import { documents as words } from "../words/documents";
import { ProblemLine } from "./Problem";
import { SendFile } from "./SendFile";
import { usePending } from "./usePending";
import "./download.css";

/** Before that a bar would only flash. */
const PATIENT_MS = 1000;

interface DownloadProps extends Pick<Actions, "fetchDocument"> {
  label: string;
  /** What follows the event's address, such as `costs.pdf?paper=a4`. */
  path: string;
  /** What the file is, for the subject of an e-mail. */
  about: string;
  /** It is what the screen is for. */
  main?: boolean;
}

export function Download({ label, path, about, fetchDocument, main }: DownloadProps) {
  const { busy, problem, run } = usePending();
  const [made, setMade] = useState<{ of: string; file: MadeFile } | null>(null);
  const [progress, setProgress] = useState<Progress | null>(null);
  useEffect(() => () => URL.revokeObjectURL(made?.file.url ?? ""), [made]);
  const fetch = () =>
    run(async () => {
      setMade(null);
      setProgress(null);
      setMade({ of: path, file: await fetchDocument(path, setProgress) });
    });
  // What was fetched for another paper or service is not what the button now names.
  const file = made?.of === path ? made.file : null;
  return (
    <div class="stack">
      <button type="button" class={main && !file ? "button main wide" : "button wide"} disabled={busy} onClick={fetch}>
        {label}
      </button>
      <div role="status">{busy && <Bar progress={progress} />}</div>
      <ProblemLine text={problem} />
      {file && <SendFile file={file} about={about} />}
    </div>
  );
}

function Bar({ progress }: { progress: Progress | null }) {
  const [isLate, setIsLate] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setIsLate(true), PATIENT_MS);
    return () => clearTimeout(timer);
  }, []);
  if (!isLate) return null;
  const says = progress ? words.coming(progress.bytes) : words.fetching;
  // Without a value the bar only says that something is under way.
  const share = progress?.of ? { value: progress.bytes, max: progress.of } : {};
  return (
    <label class="stack">
      <span>{says}</span>
      <progress {...share} />
    </label>
  );
}
