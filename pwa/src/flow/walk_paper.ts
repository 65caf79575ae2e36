/** Makes papers on the phone, with no server. Loaded when the first is made. */

import boldUrl from "../paper/fonts/bold.ttf?url";
import regularUrl from "../paper/fonts/regular.ttf?url";
import { walkSheet } from "../paper/walk_sheet";
import { UserError } from "../kit/user_error";
import type { MadePaper, WalkPaper } from "../report/walk_paper";
import { ownBlob, serverBlob } from "./blobs";
import type { Core } from "./core";
import { shrunk } from "./photos";
import { shareOf } from "./sharing";
import { laterMessages } from "../kit/later_messages";

const TYPE = "application/pdf";
/** Sharp at the size on paper, and small enough to be sent: about 300 dots an inch over three inches. */
const PICTURE_PX = 1000;

/** Make the PDF of a walk. Errors: UserError where the app's own fonts are not here. */
export async function makeWalkPaper(core: Core, paper: WalkPaper): Promise<MadePaper> {
  const named = photosOf(paper);
  const pictures = new Map<string, Uint8Array>();
  for (const photo of named) {
    const picture = await pictureOf(core, photo);
    if (picture) pictures.set(photo, picture);
  }
  const fonts = { regular: await fontOf(core, regularUrl), bold: await fontOf(core, boldUrl) };
  const { bytes, pages } = await walkSheet(paper, pictures, new Date(core.now()), fonts);
  const file = new File([bytes], `${paper.name}.pdf`, { type: TYPE });
  const url = URL.createObjectURL(file);
  const missing = named.size - pictures.size;
  return { name: file.name, url, bytes: bytes.length, pages, missing, share: shareOf(file) };
}

function photosOf({ marks, photos, signed }: WalkPaper): Set<string> {
  const ofMarks = marks.flatMap((list) => list.zones.flatMap((zone) => zone.marks.flatMap((mark) => mark.photos)));
  const views = [...photos.views, ...photos.views.flatMap((view) => (view.before ? [view.before] : [])), ...ofMarks];
  return new Set([...views, ...signed.signers].flatMap((one) => (one.photo === null ? [] : [one.photo])));
}

async function pictureOf(core: Core, photo: string): Promise<Uint8Array | null> {
  const blob = (await ownBlob(core, photo)) ?? (await serverBlob(core, photo));
  if (!blob) return null;
  const reply = await shrunk(blob, PICTURE_PX);
  return "bytes" in reply ? new Uint8Array(reply.bytes) : null;
}

async function fontOf(core: Core, url: string): Promise<Uint8Array> {
  const response = await core.fetch(url, {}).catch(notHere);
  if (!response?.ok) throw new UserError(laterMessages.noLetters);
  return new Uint8Array(await response.arrayBuffer());
}

// fetch rejects with TypeError where there is no network.
function notHere(error: unknown): null {
  if (error instanceof TypeError) return null;
  throw error;
}
