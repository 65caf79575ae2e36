/**
 * Says in words what is needed where a browser is older than the app's floor, instead of a blank page. A plain script in
 * the language of 2009, since such a browser may read no other; no build step touches it. docs/browsers.md names the floor.
 */
(function () {
  /** @type {Record<string, boolean>} */
  var NEEDED = {
    "Array.prototype.toSorted": typeof Array.prototype.toSorted === "function",
    "Object.hasOwn": typeof Object.hasOwn === "function",
    "AbortSignal.timeout": typeof AbortSignal === "function" && typeof AbortSignal.timeout === "function",
    OffscreenCanvas: typeof OffscreenCanvas === "function",
    indexedDB: typeof indexedDB === "object" && indexedDB !== null,
    "CSS dvh": typeof CSS === "object" && typeof CSS.supports === "function" && CSS.supports("height", "1dvh"),
  };
  var WORDS = [
    [
      "en",
      "Shuntbook needs a newer browser",
      "It works from Safari and iOS 16.4, Firefox 121, and Chrome or another Chromium 110 on. Update this browser, or open your link in another one. What was logged here before is still on this phone.",
      "Missing here: ",
    ],
    [
      "fr",
      "Shuntbook demande un navigateur plus récent",
      "Il fonctionne à partir de Safari et iOS 16.4, Firefox 121, et Chrome ou un autre Chromium 110. Mettez ce navigateur à jour, ou ouvrez votre lien dans un autre. Ce qui a été noté ici reste sur ce téléphone.",
      "Il manque ici : ",
    ],
  ];

  function missing() {
    return Object.keys(NEEDED).filter(function (name) {
      return !NEEDED[name];
    });
  }

  /** @type {(place: HTMLElement, kind: string, text: string) => void} */
  function add(place, kind, text) {
    var element = document.createElement(kind);
    element.textContent = text;
    place.appendChild(element);
  }

  /** @type {(names: string[]) => void} */
  function say(names) {
    var app = document.getElementById("app");
    var page = document.createElement("main");
    page.className = "alone";
    WORDS.forEach(function (words) {
      var part = document.createElement("section");
      part.lang = words[0];
      add(part, "h1", words[1]);
      add(part, "p", words[2]);
      add(part, "p", words[3] + names.join(", "));
      page.appendChild(part);
    });
    // In its place: an app that starts all the same finds nowhere to draw itself.
    // biome-ignore lint/complexity/useOptionalChain: it is newer than such browsers.
    if (app && app.parentNode) app.parentNode.replaceChild(page, app);
  }

  var names = missing();
  if (names.length > 0) say(names);
})();
