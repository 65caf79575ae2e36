/** Virtual time: what is due runs in its order, and nothing waits for a real clock. */

/** What is to happen at a time; `order` keeps those of one time apart. */
interface Due {
  at_ms: number;
  order: number;
  run: () => void;
}

/** Runs the microtasks that wait, and one task of the databases for each call. */
const hop = setImmediate;
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

  /** Have something run after `wait_ms`; returns the number to cancel it by. */
  after(wait_ms: number, run: () => void): number {
    const order = ++this.order;
    push(this.heap, { at_ms: this.now_ms + Math.max(0, wait_ms), order, run });
    return order;
  }

  cancel(number: number): void {
    this.cancelled.add(number);
  }

  /** Run all that is due until `end_ms`, or until `done` says so. */
  async runUntil(end_ms: number, done: () => boolean = () => false): Promise<void> {
    await this.settle();
    while (!done()) {
      const next = this.heap[0];
      if (!next || next.at_ms > end_ms) {
        this.now_ms = Math.max(this.now_ms, end_ms);
        return;
      }
      pop(this.heap);
      if (this.cancelled.delete(next.order)) continue;
      this.now_ms = next.at_ms;
      next.run();
      await this.settle();
    }
  }

  /** Run until nothing is left to do at this time. Errors: Error where there is no end to it. */
  async settle(): Promise<void> {
    await turn();
    const most = this.steps + MOST_STEPS;
    for (let next = tasks.shift(); next; next = tasks.shift()) {
      next();
      this.steps += 1;
      if (this.steps > most) throw new Error(`there is no end to what is done at ${this.now_ms} ms: ${next}`);
      await turn();
      this.onStep();
    }
  }
}

/** Let go of what a history left behind. */
export function forgetSteps(): void {
  tasks.length = 0;
}

const turn = () => new Promise<void>((done) => hop(() => done()));

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
