/**
 * In which order the app's files are kept on a phone: where the signal is lost halfway, what logs a hit is there.
 * What follows in the background (`follows` in src/kit/kept_app.ts) keeps this order among itself.
 */

/** First match counts; by the names that Vite gives, without their hash. */
const ORDER = [
  /^(index\.html|theme\.js|floor\.js)$/,
  /^assets\/(index|rolldown-runtime)-/,
  // What the log may want after the first tap (scripts/chunks.mjs), and the words of another language.
  /^assets\/(log|join|photo|fr)-/,
  // What a report may want next: a voice note, reports and codes, the queue.
  /^assets\/(actions|VoiceNotes|voice_notes|parts|MeScreen)-/,
  /^assets\/(ReportsScreen|RoundScreen|Codes|CodesScreen|ServiceScreen|QueueScreen|JobScreen|queue)-/,
  // The letters of the screens: without them the phone's own are shown.
  /^assets\/.*\.woff2$/,
  /^assets\/.*\.(js|css)$/,
  /./,
];

/** @param {{ url: string }} file */
const place = ({ url }) => ORDER.findIndex((one) => one.test(url));

/**
 * Return the entries of the precache list, those first that come first; alike ones as they came.
 *
 * @template {{ url: string }} F
 * @param {F[]} files
 * @returns {F[]}
 */
export const inOrder = (files) =>
  files
    .map((file, at) => ({ file, at, place: place(file) }))
    .sort((a, b) => a.place - b.place || a.at - b.at)
    .map(({ file }) => file);
