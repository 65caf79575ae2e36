/** Virtual time: what is due runs in its order, and nothing waits for a real clock. */

/** What is to happen at a time; `order` keeps those of one time apart. */
interface Due {
  at_ms: number;
  order: number;
  run: () => void;
}

/** Node's own: before each of what is handed in to it, all microtasks have run. */
const hop = setImmediate;
/** So many turns are handed in at once: to go round the event loop costs more than most of them do. */
const HANDED_IN = 64;
const tasks: (() => void)[] = [];

/** In place of `setImmediate`, which fake-indexeddb asks for at each step: so that a step is something to count. */
export function queueStep(run: () => void): void {
  tasks.push(run);
}

/** Of one moment: far more than any phone takes. */
const MOST_STEPS = 20_000;

export class Clockwork {
  /** Virtual time, in ms since the history began. */
  now_ms = 0;
  /** Steps of databases so far, in all phones together. */
  steps = 0;
  /** Called between any two steps. */
  onStep: () => void = () => {};
  private heap: Due[] = [];
  private order = 0;
  private cancelled = new Set<number>();
  /** The turn before was a step. */
  private stepped = false;
  /** Steps that may have been taken before time goes on. */
  private most = MOST_STEPS;

  /** Have something run after `wait_ms`; returns the number to cancel it by. */
  after(wait_ms: number, run: () => void): number {
    const order = ++this.order;
    push(this.heap, { at_ms: this.now_ms + Math.max(0, wait_ms), order, run });
    return order;
  }

  cancel(number: number): void {
    this.cancelled.add(number);
  }

  /** Run all that is due until `end_ms`. Errors: Error where there is no end to what is done at one time. */
  async runUntil(end_ms: number): Promise<void> {
    this.most = this.steps + MOST_STEPS;
    await inTurns(() => this.turn(end_ms));
  }

  /** Take a step, or run what is due next where there is none; say whether there was anything. */
  private turn(end_ms: number): boolean | Promise<boolean> {
    const { stepped } = this;
    if (stepped) this.onStep();
    const step = tasks.shift();
    this.stepped = step !== undefined;
    // What comes at once of looking at a step is done before time goes on.
    if (!step) return stepped ? Promise.resolve().then(() => this.runNext(end_ms)) : this.runNext(end_ms);
    step();
    this.steps += 1;
    if (this.steps > this.most) throw new Error(`there is no end to what is done at ${this.now_ms} ms: ${step}`);
    return true;
  }

  /** Run what is due next, and say whether anything was until `end_ms`. */
  private runNext(end_ms: number): boolean {
    for (let next = this.heap[0]; next && next.at_ms <= end_ms; next = this.heap[0]) {
      pop(this.heap);
      if (this.cancelled.delete(next.order)) continue;
      this.now_ms = next.at_ms;
      this.most = this.steps + MOST_STEPS;
      next.run();
      return true;
    }
    this.now_ms = Math.max(this.now_ms, end_ms);
    return false;
  }
}

/** Call `turn` until it says that there is no more, each time when no microtask is left. Errors: what it throws. */
function inTurns(turn: () => boolean | Promise<boolean>): Promise<void> {
  return new Promise((done, fail) => {
    let isOver = false;
    let left = 0;
    const failed = (error: unknown) => {
      isOver = true;
      fail(error);
    };
    const went = (more: boolean) => {
      isOver = !more;
      if (isOver) done();
      else if (left === 0) handIn();
    };
    const next = () => {
      left -= 1;
      if (isOver) return;
      try {
        const more = turn();
        if (typeof more === "boolean") went(more);
        else more.then(went, failed);
      } catch (error) {
        failed(error);
      }
    };
    const handIn = () => {
      for (let count = 0; count < HANDED_IN; count++) hop(next);
      left = HANDED_IN;
    };
    handIn();
  });
}

/** Let go of what a history left behind. */
export function forgetSteps(): void {
  tasks.length = 0;
}

function isBefore(one: Due, other: Due): boolean {
  return one.at_ms < other.at_ms || (one.at_ms === other.at_ms && one.order < other.order);
}

function push(heap: Due[], due: Due): void {
  let place = heap.length;
  heap.push(due);
  while (place > 0) {
    const above = (place - 1) >> 1;
    if (!isBefore(due, heap[above] as Due)) break;
    heap[place] = heap[above] as Due;
    place = above;
  }
  heap[place] = due;
}

function pop(heap: Due[]): void {
  const last = heap.pop();
  if (!last || heap.length === 0) return;
  let place = 0;
  for (;;) {
    let below = 2 * place + 1;
    if (below >= heap.length) break;
    if (below + 1 < heap.length && isBefore(heap[below + 1] as Due, heap[below] as Due)) below += 1;
    if (!isBefore(heap[below] as Due, last)) break;
    heap[place] = heap[below] as Due;
    place = below;
  }
  heap[place] = last;
}
