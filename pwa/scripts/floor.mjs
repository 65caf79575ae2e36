/** What of the app's built files the oldest browsers that it is made for do not know, by MDN's data. */

import { createRequire } from "node:module";
import { parse } from "acorn";
import { full } from "acorn-walk";
import * as csstree from "css-tree";
import { FLOOR } from "./targets.mjs";

// Required, not imported: it is 20 MB, which no bundler of a test should look through.
/** @type {import("@mdn/browser-compat-data").CompatData} */
const bcd = createRequire(import.meta.url)("@mdn/browser-compat-data");

/** All that ES2022 writes is known at the floor; what is newer does not parse. */
const SYNTAX = 2022;

/** Names under which an instance stands in the global scope. */
/** @type {Record<string, string>} */
const INSTANCES = {
  navigator: "Navigator",
  document: "Document",
  crypto: "Crypto",
  performance: "Performance",
  caches: "CacheStorage",
  indexedDB: "IDBFactory",
  history: "History",
  screen: "Screen",
};
const SCOPES = ["globalThis", "window", "self"];

const { builtins } = bcd.javascript;

/**
 * @typedef {import("@mdn/browser-compat-data").Identifier} Feature
 * @typedef {import("@mdn/browser-compat-data").BrowserName} Browser
 * @typedef {import("@mdn/browser-compat-data").SimpleSupportStatement} Statement
 */

/** @type {(statement: Statement, version: number) => boolean} */
function since(statement, version) {
  const added = Number.parseFloat(String(statement.version_added));
  const removed = statement.version_removed
    ? Number.parseFloat(String(statement.version_removed))
    : Number.POSITIVE_INFINITY;
  return added <= version && version < removed && !statement.flags && !statement.prefix;
}

/** @type {(feature: Feature, browser: string) => import("@mdn/browser-compat-data").SupportStatement | undefined} */
const supportOf = (feature, browser) => feature.__compat?.support[/** @type {Browser} */ (browser)];

/** @type {(feature: Feature, at: [string, number]) => boolean} */
const knows = (feature, [browser, version]) =>
  [supportOf(feature, browser) ?? []].flat().some((one) => since(one, version));

const NEWEST = 9999;
/** @type {(feature: Feature, browser: string) => boolean} In its newest version. */
const knowsNow = (feature, browser) => knows(feature, [browser, NEWEST]);

/** Return the browsers at the floor that do not know a feature of the data; what they know in part, they know. @type {(feature: Feature | undefined) => string[]} */
function lacking(feature) {
  if (!feature?.__compat) return [];
  return Object.entries(FLOOR)
    .filter((one) => supportOf(feature, one[0]) !== undefined && !knows(feature, one))
    .map(([browser]) => browser);
}

/** The same of a style, where what a browser has never learnt is no matter of its age: it looks plainer there. @type {(feature: Feature | undefined) => string[]} */
const lackingStyle = (feature) => lacking(feature).filter((browser) => feature && knowsNow(feature, browser));

/**
 * Every holder of a name of a method: interfaces that every engine has by now, and built-ins. Late is a name that each of
 * them got after the floor; what few engines have is asked for before use, and its names are too common to tell by.
 */
/** @type {Map<string, Feature[]>} */
const METHODS = new Map();
/** @type {(name: string) => string} */
const bare = (name) => name.replace(/_static$/, "");
for (const holder of [builtins, builtins.Intl, bcd.api].flatMap(Object.values)) {
  for (const [name, feature] of Object.entries(holder)) {
    const isCommon = feature.__compat && ["chrome", "firefox", "safari"].every((one) => knowsNow(feature, one));
    if (name !== "__compat" && isCommon) METHODS.set(bare(name), [...(METHODS.get(bare(name)) ?? []), feature]);
  }
}

/** @type {(name: string) => Feature | undefined} */
const ofScope = (name) => builtins[name] ?? bcd.api[name] ?? bcd.api.Window[name];

/** @type {(object: string, name: string) => Feature | undefined} */
function ofMember(object, name) {
  if (SCOPES.includes(object)) return ofScope(name);
  const instance = INSTANCES[object];
  const holder = instance ? bcd.api[instance] : (builtins[object] ?? bcd.api[object]);
  return holder?.[`${name}_static`] ?? holder?.[name];
}

/** @typedef {Map<string, string[]>} Late By feature, the browsers that lack it. */

/** @type {(lacks: (feature: Feature | undefined) => string[]) => { late: Late; note: (name: string, feature: Feature | undefined) => void }} */
function notes(lacks) {
  const late = new Map();
  const note = (/** @type {string} */ name, /** @type {Feature | undefined} */ feature) => {
    const browsers = lacks(feature);
    if (browsers.length > 0) late.set(name, browsers);
  };
  return { late, note };
}

/** @type {(tree: import("acorn").Program) => Set<string>} The names that a script gives itself. */
function ownNames(tree) {
  const own = new Set();
  full(tree, (node, _, kind) => {
    if (kind === "VariablePattern" && node.type === "Identifier") own.add(node.name);
    if ((node.type === "FunctionDeclaration" || node.type === "ClassDeclaration") && node.id) own.add(node.id.name);
  });
  return own;
}

/** @type {(node: import("acorn").AnyNode) => { object: string; name: string } | null} A member by a plain name. */
function memberOf(node) {
  if (node.type !== "MemberExpression" || node.computed || node.property.type !== "Identifier") return null;
  return { object: node.object.type === "Identifier" ? node.object.name : "", name: node.property.name };
}

/** @type {(name: string) => Feature | undefined} A feature behind a method, where all that have such a method got it late. */
function lateMethod(name) {
  const holders = METHODS.get(name) ?? [];
  return holders.every((one) => lacking(one).length > 0) ? holders[0] : undefined;
}

/**
 * Return what a script uses that the floor lacks. Errors: SyntaxError for newer syntax.
 *
 * @param {string} code
 * @param {import("acorn").ecmaVersion} [version]
 * @param {"module" | "script"} [sourceType]
 * @returns {Late}
 */
export function lateInScript(code, version = SYNTAX, sourceType = "module") {
  const tree = parse(code, { ecmaVersion: version, sourceType, allowHashBang: true });
  const own = ownNames(tree);
  const { late, note } = notes(lacking);
  full(tree, (node) => {
    if (node.type === "Identifier" && !own.has(node.name)) note(node.name, ofScope(node.name));
    const member = memberOf(node);
    if (member && !own.has(member.object)) {
      note(`${member.object}.${member.name}`, ofMember(member.object, member.name));
    }
    const called = node.type === "CallExpression" ? memberOf(node.callee) : null;
    if (called && !ofMember(called.object, called.name)) note(`.${called.name}()`, lateMethod(called.name));
  });
  return late;
}

const { properties, selectors, types } = bcd.css;
const rules = bcd.css["at-rules"];

/** @type {Record<string, string>} */
const SIZES = { d: "dynamic", s: "small", l: "large" };

/** @type {(unit: string) => Feature | undefined} */
function unitOf(unit) {
  const viewport = /^(d|s|l)(vh|vw|vmin|vmax|vi|vb)$/.exec(unit);
  return types.length[viewport ? `viewport_percentage_units_${SIZES[String(viewport[1])]}` : unit];
}

/** @type {(node: csstree.CssNode) => [string, Feature | undefined][]} What one node of a style sheet uses. */
function usedBy(node) {
  if (node.type === "Atrule") return [[`@${node.name}`, rules[node.name]]];
  if (node.type === "Feature") return [[`@media ${node.name}`, rules.media?.[node.name]]];
  if (node.type === "NestingSelector") return [["nesting", selectors.nesting]];
  if (node.type === "PseudoClassSelector" || node.type === "PseudoElementSelector") {
    return [[`:${node.name}`, selectors[node.name]]];
  }
  if (node.type === "Dimension") return [[node.unit, unitOf(node.unit)]];
  if (node.type === "Function") return [[`${node.name}()`, types[node.name] ?? types.color?.[node.name]]];
  return node.type === "Declaration" && !node.property.startsWith("--") ? usedByDeclaration(node) : [];
}

/** @type {(node: csstree.Declaration) => [string, Feature | undefined][]} */
function usedByDeclaration({ property, value }) {
  const words = csstree.findAll(value, (part) => part.type === "Identifier");
  const named = words.map((part) => (part.type === "Identifier" ? part.name : ""));
  return [[property, properties[property]], ...named.map((name) => wordOf(property, name))];
}

/** @type {(property: string, word: string) => [string, Feature | undefined]} */
const wordOf = (property, word) => [`${property}: ${word}`, properties[property]?.[word]];

/**
 * Return what a style sheet uses that the floor lacks, outside of @supports. Errors: SyntaxError where it does not parse.
 *
 * @param {string} css
 * @returns {Late}
 */
export function lateInStyle(css) {
  const { late, note } = notes(lackingStyle);
  const onParseError = (/** @type {Error} */ error) => {
    throw error;
  };
  csstree.walk(csstree.parse(css, { onParseError }), function (node) {
    if (this.atrule?.name === "supports") return;
    for (const [name, feature] of usedBy(node)) note(name, feature);
  });
  return late;
}
