/**
 * Holds src/ to its way with dates: what was written for people is read by no code, since a browser's own data decide how
 * a locale writes a day (en-CA was 2026-11-28 once, and is 11/28/2026 now). Values come from `kit/time.ts`.
 */

import { readdirSync, readFileSync, statSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";

const SRC = resolve(process.argv[2] ?? fileURLToPath(new URL("../src", import.meta.url)));

/** The one file that makes formatters, and keeps them. */
const FORMATS = join("kit", "time.ts");

/** Locales that are asked for only because they once wrote days as files do. */
const TRICKS = /^(en-CA|fr-CA|lt|lt-LT|sv|sv-SE|sv-FI)$/;
const LOCAL = /^toLocale(Date|Time)?String$/;
/** What writes a date for people. */
const WRITES = /^(format|longDay|weekday|timeOf|heardAt|toLocale(Date|Time)?String)$/;
/** What takes a text apart. */
const CUTS = /^(at|charAt|match|matchAll|replace|replaceAll|slice|split|startsWith|substr|substring)$/;
const READS = /^(Date|Number|Number\.parseInt|parseInt|Date\.parse|msOf|officialMs)$/;

/** @param {string} folder @returns {string[]} */
function files(folder) {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    if (statSync(path).isDirectory()) return files(path);
    return /\.tsx?$/.test(name) && !name.endsWith(".d.ts") ? [path] : [];
  });
}

/** @param {ts.Expression} callee */
const nameOf = (callee) => (ts.isPropertyAccessExpression(callee) ? callee.name.text : callee.getText());
/** @param {ts.Node} node */
const isWritten = (node) => ts.isCallExpression(node) && WRITES.test(nameOf(node.expression));

/**
 * Return what is wrong with one node, or null.
 *
 * @param {ts.Node} node
 * @param {boolean} isFormats
 */
function faultOf(node, isFormats) {
  if (ts.isStringLiteralLike(node) && TRICKS.test(node.text)) return `"${node.text}" is no format of files`;
  if (ts.isIdentifier(node) && node.text === "Intl" && !isFormats) return "formatters are made in kit/time.ts alone";
  if (ts.isPropertyAccessExpression(node)) {
    if (LOCAL.test(node.name.text)) return `${node.name.text} makes a formatter at each call`;
    if (CUTS.test(node.name.text) && isWritten(node.expression)) return "a date written for people is cut apart";
  }
  if (ts.isCallExpression(node) || ts.isNewExpression(node)) {
    const reads = READS.test(node.expression.getText()) && node.arguments?.some(isWritten);
    if (reads) return "a date written for people is parsed";
  }
  return null;
}

/** @param {string} path */
function faults(path) {
  const name = relative(SRC, path);
  const source = ts.createSourceFile(path, readFileSync(path, "utf8"), ts.ScriptTarget.Latest, true);
  /** @type {string[]} */
  const found = [];
  /** @param {ts.Node} node */
  const visit = (node) => {
    const fault = faultOf(node, name === FORMATS);
    const { line } = source.getLineAndCharacterOfPosition(node.getStart());
    if (fault) found.push(`${name}:${line + 1}: ${fault}`);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const found = files(SRC).flatMap(faults);
for (const fault of found) console.error(fault);
console.log(`${files(SRC).length} files, ${found.length} faults with dates`);
process.exit(found.length > 0 ? 1 : 0);
