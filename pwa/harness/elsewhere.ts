/** What a made-up state can't do: it has no server, no camera, no home screen and no disk, and says so. */

import type { Actions } from "../src/flow/model";
import { UserError } from "../src/kit/user_error";

const notHere = async (): Promise<never> => {
  throw new UserError("This page has a made-up state: nothing is behind it.");
};

export const elsewhere = {
  install: async () => {},
  asideHere: async () => [],
  reviewAside: notHere,
  asideGroups: async () => [],
  leaveOutGroup: notHere,
  issueStatement: notHere,
  acceptRates: notHere,
  askSpares: notHere,
  fetchDocument: notHere,
  previewDocument: async () => ({ kind: "unreachable" }),
  makeBundle: notHere,
  takeBundle: notHere,
  partFitted: notHere,
  codesFor: async () => null,
  walkDraft: async () => null,
  keepWalkDraft: notHere,
  dropWalkDraft: async () => {},
  signWalk: notHere,
  holdPhotos: async () => {},
  makeWalkPaper: notHere,
  scanCodes: async (_, onNews) => {
    onNews({ news: "failed", why: "no-camera" });
    return { stop: () => {} };
  },
} satisfies Partial<Actions>;
