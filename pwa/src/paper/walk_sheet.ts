/** The PDF of a hand-over walk, set from its words and pictures. */

import type { PaperPhoto, WalkPaper } from "../report/walk_paper";
import { type Cell, type Fonts, Sheet } from "./sheet";

/** Four rows of two fit on a page, A4 or Letter. */
const PHOTO_PT = 142;
const MARK_PT = 130;
const SIGNATURE_PT = 70;

/** Return the PDF's bytes and pages. `pictures`: JPEG by photo, as far as they are here. */
export async function walkSheet(
  paper: WalkPaper,
  pictures: ReadonlyMap<string, Uint8Array>,
  made_at: Date,
  fonts: Fonts,
): Promise<{ bytes: Uint8Array<ArrayBuffer>; pages: number }> {
  const sheet = new Sheet(paper.size, paper.lang, paper.title, made_at, fonts);
  const cells = new Cells(paper, pictures);
  sheet.title(paper.title);
  sheet.rows(paper.facts);
  for (const term of paper.terms) sheet.text(term);
  for (const list of paper.marks) marks(sheet, list, cells);
  for (const table of paper.tables) {
    sheet.section(table.title);
    sheet.rows(table.rows);
  }
  if (paper.note) {
    sheet.section(paper.note.title);
    sheet.text(paper.note.text);
  }
  signatures(sheet, paper, cells);
  views(sheet, paper, cells);
  return sheet.bytes(paper.foot, paper.page);
}

function marks(sheet: Sheet, list: WalkPaper["marks"][number], cells: Cells): void {
  sheet.section(list.title);
  if (list.zones.length === 0) sheet.text(list.none);
  for (const { zone, marks } of list.zones) {
    sheet.part(zone);
    for (const { text, photos } of marks) {
      sheet.text(text);
      sheet.pictures(photos.map(cells.one), 3, MARK_PT);
    }
  }
}

function signatures(sheet: Sheet, { signed, labelled }: WalkPaper, cells: Cells): void {
  sheet.section(signed.title, SIGNATURE_PT + 50);
  const each = signed.signers.map(
    ({ side, name, how, photo }): Cell => ({
      ...cells.of(photo, name),
      alt: labelled(side, name),
      caption: `${labelled(side, name)}. ${how}`,
    }),
  );
  sheet.pictures(each, Math.max(2, each.length), SIGNATURE_PT);
}

function views(sheet: Sheet, { photos }: WalkPaper, cells: Cells): void {
  sheet.section(photos.title, PHOTO_PT + 30);
  const each = photos.views.flatMap((view) =>
    view.before ? [cells.before(view), cells.one(view)] : [cells.one(view)],
  );
  sheet.pictures(each, 2, PHOTO_PT);
}

/** Turns photos into what is set: the picture, or the words in its place. */
class Cells {
  readonly #paper: WalkPaper;
  readonly #pictures: ReadonlyMap<string, Uint8Array>;

  constructor(paper: WalkPaper, pictures: ReadonlyMap<string, Uint8Array>) {
    this.#paper = paper;
    this.#pictures = pictures;
  }

  of(photo: string | null, why_none: string): Pick<Cell, "picture" | "instead"> {
    const picture = photo === null ? null : (this.#pictures.get(photo) ?? null);
    return { picture, instead: photo === null ? why_none : this.#paper.missing };
  }

  readonly one = ({ photo, caption, why_none, before }: PaperPhoto): Cell => ({
    ...this.of(photo, why_none),
    alt: caption,
    caption: before === null ? caption : this.#paper.labelled(caption, this.#paper.photos.columns?.[1] ?? ""),
  });

  before({ caption, before }: PaperPhoto): Cell {
    const said = this.#paper.labelled(caption, this.#paper.photos.columns?.[0] ?? "");
    return { ...this.of(before?.photo ?? null, before?.why_none ?? ""), alt: said, caption: said };
  }
}
