/** Chance from a seed: the same seed gives the same numbers, on every machine. */

export class Chance {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** Return a number in [0, 1): mulberry32, by Tommy Ettinger, in the public domain. */
  number(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  }

  /** Return a whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.number() * (high - low + 1));
  }

  /** Say yes so often. `share` in [0, 1]. */
  happens(share: number): boolean {
    return this.number() < share;
  }

  /** Return one of several. Errors: RangeError where there is none. */
  one<T>(of: readonly T[]): T {
    if (of.length === 0) throw new RangeError("nothing to choose from");
    return of[this.whole(0, of.length - 1)] as T;
  }

  /** Return each of several with a chance of its own. */
  some<T>(of: readonly T[], share: number): T[] {
    return of.filter(() => this.happens(share));
  }

  /** Return a wait in ms that is `mean_ms` on average and has no memory (exponential). */
  wait(mean_ms: number): number {
    return Math.round(-Math.log(1 - this.number()) * mean_ms);
  }

  /** Return chance of its own, so that what one part takes of it moves nothing in another. */
  apart(): Chance {
    return new Chance(this.whole(0, 2 ** 32 - 1));
  }
}
