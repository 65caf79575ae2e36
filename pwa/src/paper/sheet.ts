/** Sets headings, text, rows and pictures on pages, one below the other, tagged for screen readers (ISO 32000-1, 14.8). */

import PDFDocument, { type Structure } from "pdfkit";
import { toBytes } from "pdfkit/output";
import type { PaperSize } from "../report/walk_paper";

/** Points (1/72 inch): A4 is 210 × 297 mm (ISO 216), Letter 8.5 × 11 inch. */
const SIZES: Record<PaperSize, [number, number]> = { a4: [595.28, 841.89], letter: [612, 792] };
const MARGIN = 45;
/** Below the text on each page: the foot line. */
const FOOT = 24;
const INK = "#101820";
const SOFT = "#465462";
const LINE = "#9aa7b3";

const TEXT = { title: 18, section: 13, part: 11, body: 9.5, small: 8 } as const;

export interface Fonts {
  regular: Uint8Array;
  bold: Uint8Array;
}

/** What stands in one place of a row of pictures. */
export interface Cell {
  /** JPEG, or null with the words that stand there instead. */
  picture: Uint8Array | null;
  instead: string;
  alt: string;
  caption: string;
}

/** A document that is being set. `top`: how far down the page it is. */
export class Sheet {
  readonly #doc: PDFDocument;
  readonly #root: Structure;
  readonly #done: Promise<Uint8Array<ArrayBuffer>>;
  #top = MARGIN;

  constructor(size: PaperSize, lang: string, title: string, made_at: Date, fonts: Fonts) {
    this.#doc = new PDFDocument({
      size: SIZES[size],
      margin: MARGIN,
      font: fonts.regular,
      pdfVersion: "1.7",
      tagged: true,
      subset: "PDF/UA",
      lang,
      displayTitle: true,
      bufferPages: true,
      info: { Title: title, Creator: "Shuntbook", Producer: "Shuntbook", CreationDate: made_at },
    });
    this.#done = toBytes(this.#doc);
    this.#doc.registerFont("regular", fonts.regular).registerFont("bold", fonts.bold);
    this.#root = this.#doc.struct("Document");
    this.#doc.addStructure(this.#root);
  }

  get width(): number {
    return this.#doc.page.width - 2 * MARGIN;
  }

  title(text: string): void {
    this.#words("H1", text, "bold", TEXT.title, 6);
  }

  /** A heading that never stands alone at the foot of a page: `with_pt` below it must fit, too. */
  section(text: string, with_pt = 60): void {
    this.#need(TEXT.section * 1.3 + 10 + with_pt);
    this.#top += 10;
    this.#words("H2", text, "bold", TEXT.section, 4);
  }

  part(text: string, with_pt = 30): void {
    this.#need(TEXT.part * 1.3 + 4 + with_pt);
    this.#top += 4;
    this.#words("H3", text, "bold", TEXT.part, 3);
  }

  text(text: string): void {
    this.#words("P", text, "regular", TEXT.body, 4);
  }

  /** Rows of label and value. */
  rows(rows: readonly [label: string, value: string][]): void {
    const table = this.#doc.struct("Table");
    this.#root.add(table);
    const left = this.width * 0.38;
    for (const [label, value] of rows) this.#row(table, label, value, left);
    table.end();
    this.#top += 4;
  }

  #row(table: Structure, label: string, value: string, left: number): void {
    const right = this.width - left - 8;
    const height = Math.max(
      this.#heightOf(label, "bold", TEXT.body, left),
      this.#heightOf(value, "regular", TEXT.body, right),
    );
    this.#need(height + 5);
    const y = this.#top;
    this.#line(y + height + 2);
    const row = this.#doc.struct("TR");
    table.add(row);
    const head = this.#doc.struct("TH", () => this.#set(label, "bold", TEXT.body, MARGIN, y, left));
    // What a label is the head of can't be told from where it stands alone (ISO 14289-1, 7.5).
    head.dictionary.data.A = { O: "Table", Scope: "Row" };
    row.add(head);
    row.add(this.#doc.struct("TD", () => this.#set(value, "regular", TEXT.body, MARGIN + left + 8, y, right)));
    row.end();
    this.#top += height + 5;
  }

  /** Pictures side by side, each in a box so wide and high that `across` of them fill a line. */
  pictures(cells: readonly Cell[], across: number, height: number): void {
    for (let at = 0; at < cells.length; at += across) this.#line_of(cells.slice(at, at + across), across, height);
  }

  #line_of(cells: readonly Cell[], across: number, height: number): void {
    const gap = 10;
    const width = (this.width - gap * (across - 1)) / across;
    const words = Math.max(...cells.map((one) => this.#heightOf(one.caption || " ", "regular", TEXT.small, width)));
    this.#need(height + words + 10);
    const y = this.#top;
    for (const [place, cell] of cells.entries()) this.#cell(cell, MARGIN + place * (width + gap), y, width, height);
    this.#top += height + words + 10;
  }

  #cell(cell: Cell, x: number, y: number, width: number, height: number): void {
    const { picture, instead, alt, caption } = cell;
    if (picture) {
      const draw = () => void this.#doc.image(picture, x, y, { fit: [width, height], align: "center" });
      this.#root.add(this.#doc.struct("Figure", { alt }, draw));
    } else if (instead !== "") {
      this.#root.add(
        this.#doc.struct("P", () => this.#set(instead, "regular", TEXT.body, x + 8, y + height / 2 - 12, width - 16)),
      );
    }
    this.#box(x, y, width, height);
    if (caption === "") return;
    const below = y + height + 3;
    this.#root.add(this.#doc.struct("P", () => this.#set(caption, "regular", TEXT.small, x, below, width, SOFT)));
  }

  /** End with a foot on every page; returns the bytes and how many pages there are. */
  async bytes(foot: string, page: (page: number, of: number) => string) {
    const { start, count } = this.#doc.bufferedPageRange();
    for (let at = start; at < start + count; at++) {
      this.#doc.switchToPage(at);
      this.#foot(foot, page(at - start + 1, count));
    }
    this.#root.end();
    this.#doc.end();
    return { bytes: await this.#done, pages: count };
  }

  #foot(foot: string, number: string): void {
    const { page } = this.#doc;
    const y = page.height - MARGIN + 6;
    // Text below the margin would begin a page.
    page.margins.bottom = 0;
    this.#doc.markContent("Artifact", { type: "Pagination", attached: ["Bottom"] });
    this.#doc.font("regular").fontSize(TEXT.small).fillColor(SOFT);
    this.#doc.text(foot, MARGIN, y, { width: this.width * 0.75, height: FOOT, lineBreak: false });
    this.#doc.text(number, MARGIN + this.width * 0.75, y, { width: this.width * 0.25, align: "right" });
    this.#doc.endMarkedContent();
    page.margins.bottom = MARGIN;
  }

  #words(type: string, text: string, font: keyof Fonts, size: number, after: number): void {
    const height = this.#heightOf(text, font, size, this.width);
    this.#need(height);
    const y = this.#top;
    this.#root.add(this.#doc.struct(type, () => this.#set(text, font, size, MARGIN, y, this.width)));
    this.#top += height + after;
  }

  #set(text: string, font: keyof Fonts, size: number, x: number, y: number, width: number, colour = INK): void {
    this.#doc.font(font).fontSize(size).fillColor(colour).text(text, x, y, { width });
  }

  #heightOf(text: string, font: keyof Fonts, size: number, width: number): number {
    return this.#doc.font(font).fontSize(size).heightOfString(text, { width });
  }

  /** Begin a page where so much does not fit below. */
  #need(height: number): void {
    if (this.#top + height <= this.#doc.page.height - MARGIN) return;
    this.#doc.addPage();
    this.#top = MARGIN;
  }

  #line(y: number): void {
    this.#decoration(() => this.#doc.moveTo(MARGIN, y).lineTo(MARGIN + this.width, y));
  }

  #box(x: number, y: number, width: number, height: number): void {
    this.#decoration(() => this.#doc.rect(x, y, width, height));
  }

  #decoration(path: () => PDFDocument): void {
    this.#doc.markContent("Artifact", { type: "Layout" });
    path().lineWidth(0.5).strokeColor(LINE).stroke();
    this.#doc.endMarkedContent();
  }
}
