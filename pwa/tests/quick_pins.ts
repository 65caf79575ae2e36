/**
 * For tests that ask for a PIN and judge no hash: each try costs a thousandth of what it costs a thief, which is a quarter of a
 * second. `pin.test.ts` holds the hash to the standard, with all its iterations.
 */

const asAsked = crypto.subtle.deriveBits.bind(crypto.subtle);

crypto.subtle.deriveBits = (rule, key, bits) => asAsked(isOfPin(rule) ? quick(rule) : rule, key, bits);

const isOfPin = (rule: Parameters<typeof asAsked>[0]): rule is Pbkdf2Params =>
  typeof rule === "object" && "iterations" in rule;

const quick = (rule: Pbkdf2Params) => ({ ...rule, iterations: Math.ceil(rule.iterations / 1000) });
