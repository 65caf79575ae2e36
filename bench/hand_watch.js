// Put into the page before its own scripts: notes long tasks, answers to taps, and when the first tap can be answered.
(() => {
  const watch = { tasks: [], answers: [] };
  globalThis.handWatch = watch;
  const follow = (type, keep, more) =>
    new PerformanceObserver((list) => list.getEntries().forEach(keep)).observe({ type, buffered: true, ...more });
  follow("longtask", ({ startTime, duration }) => watch.tasks.push([startTime, duration]));
  // 16 ms is the least that the browser tells; durations run to the next paint, in steps of 8 ms (Event Timing).
  const isTap = ({ name }) => name === "click" || name === "pointerup";
  follow("event", (event) => isTap(event) && watch.answers.push([event.startTime, event.duration]), {
    durationThreshold: 16,
  });

  // A frame's callbacks run before it is painted, a message sent from there comes in after.
  const afterPaint = (done) =>
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = done;
      port2.postMessage(null);
    });
  // Not by looking at each frame, which would make the browser draw frames that nobody asked for.
  const until = (find, found) => {
    const one = find();
    if (one) return found(one);
    const seeing = new MutationObserver(() => {
      const there = find();
      if (!there) return;
      seeing.disconnect();
      found(there);
    });
    seeing.observe(document, { childList: true, subtree: true });
  };

  /** Tap the first zone right after the frame that shows it; fulfilled when the form that answers is painted. */
  watch.tapWhenThere = () => {
    watch.tapped = new Promise((done) => {
      until(
        () => document.querySelector("g.zone"),
        (zone) =>
          afterPaint(() => {
            const there = performance.now();
            until(
              () => document.querySelector(".log-form"),
              () => afterPaint(() => done([there, performance.now(), watch.tasks])),
            );
            zone.dispatchEvent(new MouseEvent("click", { bubbles: true }));
          }),
      );
    });
  };

  /** Fulfilled with the middle of what a selector and a text name, once it is painted; swiped into sight first. */
  watch.find = (selector, text) =>
    new Promise((done) => {
      const named = (one) => (one.getAttribute("aria-label") ?? one.textContent).trim().startsWith(text);
      until(
        () => [...document.querySelectorAll(selector)].find(named),
        (one) =>
          afterPaint(() => {
            one.scrollIntoView({ block: "center", behavior: "instant" });
            const box = one.getBoundingClientRect();
            done([box.x + box.width / 2, box.y + box.height / 2]);
          }),
      );
    });

  /** Note when each frame begins until it is called to stop; returns how to stop, which gives the stamps. */
  watch.frames = () => {
    const stamps = [];
    let going = true;
    const note = (at) => {
      stamps.push(at);
      if (going) requestAnimationFrame(note);
    };
    requestAnimationFrame(note);
    return () => {
      going = false;
      return stamps;
    };
  };
})();
