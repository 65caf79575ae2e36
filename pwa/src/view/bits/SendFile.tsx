/** A file that was made: the phone's sharing sheet, an e-mail draft with the file saved beside it, or only saved. */

import { useRef } from "preact/hooks";
import { draftOf } from "../../kit/mail";
import type { MadeFile } from "../../report/made_file";
import { documents as words } from "../words/documents";
import { ProblemLine } from "./Problem";
import { usePending } from "./usePending";

interface SendFileProps {
  file: MadeFile;
  /** What the file is, for the subject: "Statement, car 42, Harrow Forest Rally". */
  about: string;
}

export function SendFile({ file, about }: SendFileProps) {
  const { problem, run } = usePending();
  const saving = useRef<HTMLAnchorElement>(null);
  return (
    <div class="stack">
      <a class="button main wide" ref={saving} href={file.url} download={file.name}>
        {words.save(file.name, file.bytes)}
      </a>
      <div class="row even">
        {file.share && (
          <button type="button" class="button" onClick={() => run(file.share ?? (async () => {}))}>
            {words.share}
          </button>
        )}
        <a
          class="button"
          href={draftOf(about, words.mail(about, file.name))}
          // A draft can't bring a file: it is saved first, so that it only has to be attached.
          onClick={() => saving.current?.click()}
        >
          {words.draft}
        </a>
      </div>
      <p class="soft">{words.draftHow}</p>
      <ProblemLine text={problem} />
    </div>
  );
}
