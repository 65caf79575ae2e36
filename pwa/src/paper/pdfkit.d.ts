/** Of pdfkit 0.20, which brings no types, what the papers use. */

declare module "pdfkit" {
  export interface Structure {
    add(child: Structure): Structure;
    end(): void;
    /** What is written of it: a text is a name there. */
    dictionary: { data: Record<string, unknown> };
  }
  export interface TextOptions {
    width?: number;
    height?: number;
    align?: "left" | "right" | "center";
    lineBreak?: boolean;
    lineGap?: number;
    ellipsis?: boolean;
  }
  export interface StructureOptions {
    alt?: string;
    title?: string;
  }
  export interface DocumentOptions {
    size: [number, number];
    margin: number;
    font: Uint8Array;
    pdfVersion: "1.7";
    tagged: boolean;
    subset: "PDF/UA";
    lang: string;
    displayTitle: boolean;
    bufferPages: boolean;
    info: Record<string, string | Date>;
  }
  export default class PDFDocument {
    constructor(options: DocumentOptions);
    page: { width: number; height: number; margins: { top: number; bottom: number; left: number; right: number } };
    x: number;
    y: number;
    registerFont(name: string, font: Uint8Array): this;
    font(name: string): this;
    fontSize(size: number): this;
    fillColor(color: string): this;
    strokeColor(color: string): this;
    lineWidth(width: number): this;
    text(text: string, x: number, y: number, options?: TextOptions): this;
    heightOfString(text: string, options?: TextOptions): number;
    image(bytes: Uint8Array, x: number, y: number, options: { fit: [number, number]; align?: "center" }): this;
    rect(x: number, y: number, width: number, height: number): this;
    moveTo(x: number, y: number): this;
    lineTo(x: number, y: number): this;
    stroke(): this;
    addPage(): this;
    bufferedPageRange(): { start: number; count: number };
    switchToPage(page: number): void;
    struct(type: string, options: StructureOptions, children?: (() => void)[] | (() => void)): Structure;
    struct(type: string, children?: (() => void)[] | (() => void)): Structure;
    addStructure(structure: Structure): this;
    markContent(tag: "Artifact", options: { type: string; attached?: string[] }): this;
    endMarkedContent(): this;
    end(): void;
  }
}

declare module "pdfkit/output" {
  import type PDFDocument from "pdfkit";

  export function toBytes(document: PDFDocument): Promise<Uint8Array<ArrayBuffer>>;
}
