/**
 * Text in rows of cells: CSV (RFC 4180) and what spreadsheets put on the clipboard, which is the same with tabs.
 *
 * `a,"b ""c"", d"` is two cells: `a` and `b "c", d`. Lines end with LF, CRLF or CR; a quote only counts at a cell's begin.
 */

/** A row, and the number of the line that it ends on, from 1. */
export interface Line {
  cells: string[];
  line: number;
}

/** Return the rows of a text; a quote that is never closed takes all that follows. */
export function linesOf(text: string, delimiter: string): Line[] {
  const lines: Line[] = [];
  let cells: string[] = [];
  let cell = "";
  let line = 1;
  let at = text.startsWith("\ufeff") ? 1 : 0;
  const endCell = () => {
    cells.push(cell);
    cell = "";
  };
  const endLine = () => {
    endCell();
    lines.push({ cells, line });
    cells = [];
  };
  while (at < text.length) {
    if (text[at] === '"' && cell === "") {
      const quoted = quotedFrom(text, at);
      cell = quoted.cell;
      line += breaksIn(cell);
      at = quoted.end;
      // What stands behind the closing quote belongs to the cell, as spreadsheets read it.
      while (at < text.length && text[at] !== delimiter && !isBreak(text[at])) cell += text[at++];
      if (at >= text.length) break;
    }
    const char = text[at] ?? "";
    if (char === delimiter) endCell();
    else if (isBreak(char)) {
      endLine();
      line += 1;
      if (char === "\r" && text[at + 1] === "\n") at += 1;
    } else cell += char;
    at += 1;
  }
  if (cell !== "" || cells.length > 0) endLine();
  return lines;
}

function quotedFrom(text: string, start: number): { cell: string; end: number } {
  let cell = "";
  let at = start + 1;
  for (;;) {
    const end = text.indexOf('"', at);
    if (end < 0) return { cell: cell + text.slice(at), end: text.length };
    cell += text.slice(at, end);
    if (text[end + 1] !== '"') return { cell, end: end + 1 };
    cell += '"';
    at = end + 2;
  }
}

const isBreak = (char: string | undefined) => char === "\n" || char === "\r";

/** Return how many lines a cell goes on for beyond its first. */
export const breaksIn = (cell: string): number => cell.match(/\r\n|\r|\n/g)?.length ?? 0;

/** Return rows as text; cells that need quotes get them. */
export function delimited(rows: string[][], delimiter: string, end: string): string {
  const special = new RegExp(`["\r\n${delimiter}]|^\\s|\\s$`);
  const quoted = (cell: string) => (special.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
  return rows.map((cells) => cells.map(quoted).join(delimiter) + end).join("");
}

/** Return what separates the cells of a file: whichever of comma, semicolon and tab its first line has most of. */
export function delimiterOf(text: string): string {
  const head = text.split(/[\r\n]/, 1)[0] ?? "";
  const counted = [",", ";", "\t"].map((one) => [head.split(one).length, one] as const);
  return counted.sort(([a], [b]) => b - a)[0]?.[1] ?? ",";
}

/** Return a cell that no spreadsheet takes for a formula: an apostrophe before = + - @, tab and CR. */
export const defused = (cell: string): string => (/^'*[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell);

/** Return the cell that was defused. */
export const undefused = (cell: string): string => (/^'+[=+\-@\t\r]/.test(cell) ? cell.slice(1) : cell);
