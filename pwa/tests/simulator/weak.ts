/**
 * A `WeakMap` of a page. A look for what is young and gone takes each value of an older WeakMap for needed (V8's scavenger
 * does): all that the app's database was ever asked for would be copied twice, which was a third of what the phones cost.
 * Here a value lies with its key, and goes with it.
 */

/** Gives the key itself, so that a class made of it puts its own private field on the key: proxies have one, too. */
function itself(key: object): object {
  return key;
}
const Key = itself as unknown as new (key: object) => object;

const ABSENT = Symbol("absent");

const isObject = (key: unknown) => typeof key === "object" && key !== null;

/** Return a place on any object that nobody else finds. */
function place() {
  return class Place extends Key {
    #value: unknown = ABSENT;

    static read(key: object): unknown {
      return isObject(key) && #value in key ? key.#value : ABSENT;
    }

    static write(key: object, value: unknown): void {
      const held = #value in key ? key : (new Place(key) as Place);
      held.#value = value;
    }
  };
}

/** Does what the app asks of a `WeakMap`. */
export class Weak {
  private place = place();
  /** Those of the database outlive every page: what lay with them would hold each page that ever was. */
  private functions = new WeakMap<object, unknown>();

  has(key: object): boolean {
    return typeof key === "function" ? this.functions.has(key) : this.place.read(key) !== ABSENT;
  }

  get(key: object): unknown {
    if (typeof key === "function") return this.functions.get(key);
    const value = this.place.read(key);
    return value === ABSENT ? undefined : value;
  }

  set(key: object, value: unknown): this {
    if (isObject(key)) this.place.write(key, value);
    else this.functions.set(key, value);
    return this;
  }

  delete(key: object): boolean {
    const held = this.has(key);
    if (typeof key === "function") this.functions.delete(key);
    else if (held) this.place.write(key, ABSENT);
    return held;
  }
}
