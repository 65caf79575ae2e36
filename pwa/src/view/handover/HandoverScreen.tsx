/** Hands over without a network: a file out, a file in, codes shown or scanned. */

import type { ScreenProps } from "../screen";
import { handover as words } from "../words/handover";
import { GiveFile } from "./GiveFile";
import { ScanCodes } from "./ScanCodes";
import { TakeFile } from "./TakeFile";
import "./handover.css";

export function HandoverScreen({ actions }: ScreenProps) {
  return (
    <div class="stack">
      <h1>{words.title}</h1>
      <p>{words.what}</p>
      <section class="sheet" aria-labelledby="codes-title">
        <h2 id="codes-title">{words.codes}</h2>
        <p>{words.codesHow}</p>
        <a class="button wide" href="#/codes">
          {words.show}
        </a>
        <ScanCodes scanCodes={actions.scanCodes} />
      </section>
      <GiveFile makeBundle={actions.makeBundle} />
      <TakeFile takeBundle={actions.takeBundle} />
    </div>
  );
}
