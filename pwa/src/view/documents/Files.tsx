/** A paper's files, each with the button that fetches it. */

import type { Actions } from "../../flow/model";
import { Download } from "../bits/Download";
import { documents as words } from "../words/documents";
import type { Listed } from "./listed";

interface FilesProps extends Pick<Actions, "fetchDocument"> {
  listed: Listed;
}

export function Files({ listed, fetchDocument }: FilesProps) {
  return (
    <>
      {listed.forms.map(({ name, path }) => (
        <Download key={name} label={words.form[name]} path={path} about={listed.about} fetchDocument={fetchDocument} />
      ))}
    </>
  );
}
