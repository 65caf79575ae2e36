/** No sentence for a person is written into the code: each is a word of a table, which another language lies over. */

import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { expect, test } from "vitest";

const SRC = fileURLToPath(new URL("../src/", import.meta.url));

/** Whose texts reach the screens; `view/words` is where they belong. */
const FOLDERS = ["flow", "sync", "store", "setup", "view"];

/** A word with a capital and a full stop at its end, or three words in a row. */
const SENTENCE = /^\p{Lu}\p{Ll}+.*[.!?…]$|\p{L}{2,} \p{L}+ \p{L}{2,}/su;

/** What is no sentence for a person, and why. */
const OTHER = new Map([
  // To the console, for whoever looks for the fault.
  ["the worker did not start", "console"],
  ["The queue was not worked out on this phone: §", "console"],
  // Kinds of readings, as entries hold them.
  ...["peak water temperature", "peak oil temperature", "lowest oil pressure", "brake fluid added"].map(
    (kind) => [kind, "entry"] as const,
  ),
  // Currencies by their decimals: ISO 4217.
  ["BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF", "codes"],
  ["BHD IQD JOD KWD LYD OMR TND", "codes"],
  // A unit, the same in every language.
  ["km", "unit"],
]);

const STYLES = ["class", "d", "points"];

function filesIn(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name) && !name.startsWith("words"))
    .map((name) => `${folder}/${name}`);
}

/** Return a node's own text, "§" for what is put into it; null where it has none. */
function textOf(node: ts.Node): string | null {
  if (ts.isStringLiteralLike(node)) return node.text;
  if (ts.isTemplateExpression(node))
    return node.head.text + node.templateSpans.map((one) => `§${one.literal.text}`).join("");
  return null;
}

/** Return the sentences of a source, and all text between tags. */
function sentencesIn(name: string, source: string): string[] {
  const found: string[] = [];
  const kind = name.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const tree = ts.createSourceFile(name, source, ts.ScriptTarget.Latest, false, kind);
  const visit = (node: ts.Node) => {
    if (ts.isJsxAttribute(node) && STYLES.includes(node.name.getText(tree))) return;
    const text = textOf(node);
    if (text !== null && SENTENCE.test(text)) found.push(text);
    if (ts.isJsxText(node) && /\p{L}{2,}/u.test(node.text)) found.push(node.text.trim());
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
}

test("flows and screens say nothing in words of their own", () => {
  const found = FOLDERS.flatMap((folder) => filesIn(SRC + folder)).flatMap((path) =>
    sentencesIn(path, readFileSync(path, "utf8")).map((text) => [path.slice(SRC.length), text] as const),
  );
  expect(found.filter(([, text]) => !OTHER.has(text))).toEqual([]);
  const unused = [...OTHER.keys()].filter((text) => !found.some(([, one]) => one === text));
  expect(unused, "an exception that nothing needs").toEqual([]);
});

test("a sentence is found in a call, in a template and between tags; names and classes are none", () => {
  const source = `say(core, "Started."); fail(\`\${name} has a PIN here\`); const a = <p class="one two three">Hello {"x"}</p>;
    newEntry("task.started", "front-left/wheel");`;
  expect(sentencesIn("one.tsx", source)).toEqual(["Started.", "§ has a PIN here", "Hello"]);
});
