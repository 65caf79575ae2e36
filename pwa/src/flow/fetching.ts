/** Has the server make a document and offers it as a file. Loaded when it is first used. */

import { UserError } from "../kit/user_error";
import type { MadeFile, Progress } from "../report/made_file";
import { fetchFile } from "../sync/document";
import type { Core } from "./core";
import { shareOf } from "./sharing";
import { laterMessages } from "../kit/later_messages";

/** Fetch a document of the chosen event. `path`: what follows the event's address. Errors: UserError with why there is none. */
export async function fetchDocument(
  core: Core,
  path: string,
  onProgress: (progress: Progress) => void,
): Promise<MadeFile> {
  const { speaking, state } = core.snapshot();
  if (!speaking || !state.setup) throw new UserError(laterMessages.noSetup);
  const whole = `/events/${encodeURIComponent(state.setup.event)}/${path}`;
  const fetched = await fetchFile(core.fetch, speaking.token, whole, onProgress);
  if (fetched.kind === "problem") {
    throw new UserError(`${fetched.problem.title}. ${fetched.problem.detail ?? ""}`.trim());
  }
  if (fetched.kind === "unreachable") {
    throw new UserError(laterMessages.noDocument);
  }
  const file = new File([fetched.blob], fetched.name, { type: fetched.blob.type });
  return { name: file.name, url: URL.createObjectURL(file), bytes: file.size, share: shareOf(file) };
}
