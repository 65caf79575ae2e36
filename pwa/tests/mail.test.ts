/** A draft's address, as RFC 6068 has it: percent-encoded, line breaks as %0D%0A. */

import { expect, test } from "vitest";
import { draftOf } from "../src/kit/mail";

test("a draft has its subject and text, with nothing in them that ends them early", () => {
  const address = draftOf("Statement, car 42 & 43?", "One\nTwo = 100 %\r\nÉté");
  expect(address).toBe(
    "mailto:?subject=Statement%2C%20car%2042%20%26%2043%3F&body=One%0D%0ATwo%20%3D%20100%20%25%0D%0A%C3%89t%C3%A9",
  );
  const read = new URLSearchParams(address.split("?").slice(1).join("?"));
  expect([read.get("subject"), read.get("body")]).toEqual(["Statement, car 42 & 43?", "One\r\nTwo = 100 %\r\nÉté"]);
});
