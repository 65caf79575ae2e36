/** The language that the app speaks: English as it is written, or another one laid over it before the first screen. */

export const LANGUAGES = ["en", "fr"] as const;
export type Language = (typeof LANGUAGES)[number];

/** Words of another language for an object of English ones: the same keys, any text, the same parameters. */
export type Words<T> = T extends (...asked: infer Asked) => infer Said
  ? (...asked: Asked) => Words<Said>
  : T extends string
    ? string
    : T extends readonly (infer One)[]
      ? readonly Words<One>[]
      : T extends object
        ? { [Key in keyof T]: Words<T[Key]> }
        : T;

type Table = Record<string, unknown>;

/** By name: the English objects of what is loaded so far. Screens that come later bring theirs. */
const loaded = new Map<string, Table>();
let over: Record<string, object> = {};
let spoken: Language = "en";

/** Hold an object of words under a name, so that another language can be laid over it; returns the object itself. */
export function worded<T extends object>(name: string, english: T): T {
  loaded.set(name, english as Table);
  if (over[name]) lay(english as Table, over[name] as Table);
  return english;
}

/** Speak a language from now on. Its words go into the English objects, so that who holds one reads them. */
export function speak(language: Language, words: Record<string, object>): void {
  spoken = language;
  over = words;
  for (const [name, english] of loaded) if (over[name]) lay(english, over[name] as Table);
}

/** Return the language that is spoken. */
export const language = (): Language => spoken;

/** For `Intl`: what days and numbers are written by. */
export const locale = (): string => (spoken === "fr" ? "fr-FR" : "en-GB");

/** Return what a person chose, else the first of the browser's languages that the app knows, else English. */
export function languageFor(chosen: string | null, wanted: readonly string[]): Language {
  const names = [chosen ?? "", ...wanted].map((name) => name.toLowerCase().split("-")[0]);
  return LANGUAGES.find((one) => one === names.find((name) => LANGUAGES.includes(name as Language))) ?? "en";
}

/** Return a number with so many decimals: "6.1", "6,1". */
export function decimal(value: number, places: number): string {
  const text = value.toFixed(places);
  return spoken === "fr" ? text.replace(".", ",") : text;
}

/** Return decimal text as people read it, thousands set apart: "1,234.5" or "1 234,5". */
export function setApart(text: string): string {
  const [whole = "", rest] = text.split(".");
  const [between, point] = spoken === "fr" ? ["\u00a0", ","] : [",", "."];
  return whole.replace(/\B(?=(\d{3})+$)/g, between) + (rest ? point + rest : "");
}

function lay(under: Table, words: Table): void {
  for (const [key, word] of Object.entries(words)) {
    const there = under[key];
    if (isTable(word) && isTable(there)) lay(there, word);
    else under[key] = word;
  }
}

const isTable = (value: unknown): value is Table =>
  typeof value === "object" && value !== null && !Array.isArray(value);
