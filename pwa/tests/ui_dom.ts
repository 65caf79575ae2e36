/** A page for components, in a DOM without a browser: what they do; how they look is for the gallery's tests. */

import { type ComponentChild, render } from "preact";
import { act } from "preact/test-utils";
import { afterEach } from "vitest";

let place: HTMLElement | null = null;

/** Put something on the page, or show it again with other props. */
export function show(shown: ComponentChild): HTMLElement {
  place ??= document.body.appendChild(document.createElement("div"));
  const root = place;
  act(() => render(shown, root));
  return root;
}

/** Do something, and wait for what the components make of it. */
export const does = (what: () => unknown) => act(() => void what());

afterEach(() => {
  if (place) show(null);
  place?.remove();
  place = null;
});

/** The one element of a role and a name (an aria-label, or its text). */
export function get(role: string, name: string): HTMLElement {
  const named = (one: Element) => (one.getAttribute("aria-label") ?? one.textContent ?? "").trim() === name;
  const found = [...document.querySelectorAll<HTMLElement>(`${role}, [role=${role}]`)].filter(named);
  if (found.length !== 1 || !found[0])
    throw new Error(`${found.length} of ${role} "${name}" in ${document.body.innerHTML}`);
  return found[0];
}

export const click = (one: HTMLElement) => does(() => one.click());

export const press = (one: HTMLElement, key: string, more: KeyboardEventInit = {}) =>
  does(() => one.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true, ...more })));

/** Type a text into a field in the place of what is there. */
export const type = (field: HTMLInputElement, text: string) =>
  does(() => {
    field.value = text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  });

export const status = () => document.querySelector("[role=status]")?.textContent ?? "";
