// Put into the page before its own scripts: notes long tasks, answers to taps, and when the first tap can be answered.
(() => {
  const watch = { tasks: [], answers: [], there: null, answered: null };
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
  const until = (find, found) => {
    const one = find();
    if (one) found(one);
    else requestAnimationFrame(() => until(find, found));
  };

  /** Tap the first zone right after the frame that shows it, and note when the form that answers is painted. */
  watch.tapWhenThere = () =>
    until(
      () => document.querySelector("g.zone"),
      (zone) =>
        afterPaint(() => {
          watch.there = performance.now();
          zone.dispatchEvent(new MouseEvent("click", { bubbles: true }));
          until(
            () => document.querySelector(".log-form"),
            () => afterPaint(() => { watch.answered = performance.now(); }),
          );
        }),
    );

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
