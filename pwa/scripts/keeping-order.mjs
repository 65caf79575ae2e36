/**
 * In which order the app's files are kept on a phone: where the signal is lost halfway, what logs a hit is there.
 * What follows in the background (`follows` in src/kit/kept_app.ts) keeps this order among itself.
 */

/** First match counts; by the names that Vite gives, without their hash. */
const ORDER = [
  /^(index\.html|theme\.js|floor\.js)$/,
  /^assets\/(index|common|jsxRuntime|hooks|preload-helper|rolldown-runtime)-/,
  // What the first screen imports, and the words of another language.
  /^assets\/(order|labels|time|spoken|versions|voided|voices|held|clock|money|utils|db|meta|fr)-/,
  // What a report may want next: its form's second half, photos, a place, a voice note, reports and codes.
  /^assets\/(Join|join|MoreFields|photo|photos|blobs|worker|RingPanel|ring|VoiceNotes|positionSaid|locating|Tour|HomeScreen|MeScreen)-/,
  /^assets\/(ReportsScreen|reports|RoundScreen|keptRound|Codes|CodesScreen|qr|ServiceScreen|service|QueueScreen|queue|JobScreen|jobs)-/,
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
