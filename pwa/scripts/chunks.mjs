/**
 * Which modules come in one file. Left to itself, the bundler makes a file of each set of modules that the same screens
 * share: some two hundred, half of them under 2 kB. Each costs a phone a request, an entry of its cache and a write.
 */

/** What is kept only after the app is ready (`follows` in src/kit/kept_app.ts): stays in files of its own. */
const FOLLOWS = [
  /\/flow\/walk_paper\.ts$/,
  /\/setup\/SetupScreen\.tsx$/,
  /\/season\/SeasonScreen\.tsx$/,
  /\/setup\/sheets\.ts$/,
  /\/words\/fr(\/|\.ts$)/,
  /\/read-excel-file\//,
];

/** Large, seldom wanted, and wanted alone. */
const ALONE = [/\/flow\/(scanning|handover|local_queue|voice_notes)\.ts$/, /\/voice\/VoiceNotes\.tsx$/];

/** What the log may want after its first screen, and what joining does, so that neither waits for all that is below. */
const LOG = [
  /\/view\/log\/(Writing|MoreFields|Amend|NothingSeen)\.tsx$/,
  /\/view\/(bits\/Photo|ring\/RingPanel|about\/Tour|me\/HomeScreen|shell\/(Told|Notices))\.tsx$/,
  /\/flow\/(photos|locating)\.ts$/,
];
const JOIN = [/\/view\/join\/Join\.tsx$/, /\/flow\/join_by_code\.ts$/];

const VIEW = /\/src\/view\//;
const SCREEN = /Screen\.tsx$/;

/** @typedef {import("rolldown").ModuleInfo} ModuleInfo */
/** @typedef {{ getModuleInfo: (id: string) => ModuleInfo | null }} Modules */

/** @param {RegExp[]} patterns @param {string} id */
const isOf = (patterns, id) => patterns.some((one) => one.test(id));

/**
 * The modules that are asked for by `import(…)`, and whose own imports lead to a module.
 *
 * @param {string} id
 * @param {Modules} modules
 */
function wantedBy(id, modules) {
  const [found, seen, todo] = [new Set(), new Set(), [id]];
  for (let one = todo.pop(); one !== undefined; one = todo.pop()) {
    const info = seen.has(one) ? null : modules.getModuleInfo(one);
    seen.add(one);
    if (info?.dynamicImporters.length) found.add(one);
    todo.push(...(info?.importers ?? []));
  }
  return /** @type {string[]} */ ([...found]);
}

/** @param {(wanted: string[], id: string) => string | null} choose gets those that want a module, without what follows */
const named = (choose) => (/** @type {string} */ id, /** @type {Modules} */ modules) => {
  const wanted = wantedBy(id, modules).filter((one) => !isOf(FOLLOWS, one));
  return wanted.length > 0 ? choose(wanted, id) : null;
};

/** @param {string[]} wanted @param {RegExp[]} patterns */
const someOf = (wanted, patterns) => wanted.some((one) => isOf(patterns, one));

/** What several screens share; null for what one alone wants, of which the bundler makes a file. @param {string[]} wanted @param {string} id */
function shared(wanted, id) {
  if (wanted.every((one) => isOf(ALONE, one))) return null;
  if (wanted.length === 1 && SCREEN.test(wanted[0] ?? "")) return null;
  return VIEW.test(id) ? "parts" : "actions";
}

/** The first to want a module has it, and what it imports. The first screen's is smaller as one file. */
export const GROUPS = [
  { name: "index", tags: [/** @type {"$initial"} */ ("$initial")], priority: 4 },
  { name: named((wanted) => (someOf(wanted, LOG) ? "log" : null)), priority: 3 },
  { name: named((wanted) => (someOf(wanted, JOIN) ? "join" : null)), priority: 2 },
  { name: named(shared), priority: 1 },
];
