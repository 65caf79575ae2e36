// @vitest-environment happy-dom
/** What lies over a screen: the sheet keeps the focus and gives it back; the message is spoken, and goes. */

import { useState } from "preact/hooks";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { MESSAGE_MS, MessageBar, type MessageShown } from "../src/view/ui/MessageBar";
import { Sheet } from "../src/view/ui/Sheet";
import { click, does, get, press, show, status } from "./ui_dom";

describe("sheet", () => {
  function Screen() {
    const [open, setOpen] = useState(false);
    return (
      <>
        <button type="button" onClick={() => setOpen(true)}>
          Why
        </button>
        <Sheet open={open} title="Why the car is held" closeLabel="Close" onClose={() => setOpen(false)}>
          <a href="#hose">Brake hose</a>
          <button type="button">Inspect</button>
        </Sheet>
      </>
    );
  }
  const dialog = () => document.querySelector("dialog");
  function open(): HTMLDialogElement {
    show(<Screen />);
    const opener = get("button", "Why");
    opener.focus();
    click(opener);
    return dialog() ?? expect.fail("no dialog");
  }

  test("it is a modal dialog with its title for a name", () => {
    const modal = vi.spyOn(HTMLDialogElement.prototype, "showModal");
    const box = open();
    expect(modal).toHaveBeenCalledTimes(1);
    const title = document.getElementById(box.getAttribute("aria-labelledby") ?? "");
    expect(title?.textContent).toBe("Why the car is held");
  });

  test.each([
    ["the cross", (_: HTMLDialogElement) => click(get("button", "Close"))],
    // What a browser sends for Escape, and a phone for its way back.
    ["Escape", (box: HTMLDialogElement) => does(() => box.dispatchEvent(new Event("cancel", { cancelable: true })))],
    ["a tap beside it", (box: HTMLDialogElement) => click(box)],
  ])("%s closes it, and the focus is where it was", (_, close) => {
    const box = open();
    get("button", "Inspect").focus();
    close(box);
    expect(dialog()).toBeNull();
    expect(document.activeElement).toBe(get("button", "Why"));
  });

  test("a tap on what is in it does not", () => {
    open();
    click(get("button", "Inspect"));
    expect(dialog()).not.toBeNull();
  });

  test("Tab goes round in it, both ways", () => {
    const box = open();
    const [cross, last] = [get("button", "Close"), get("button", "Inspect")];
    last.focus();
    press(last, "Tab");
    expect(document.activeElement).toBe(cross);
    press(cross, "Tab", { shiftKey: true });
    expect(document.activeElement).toBe(last);
    // From the title, which has the focus first, back is the last; forward is the browser's own way.
    const title = box.querySelector("h2") ?? expect.fail("no title");
    title.focus();
    press(title, "Tab");
    expect(document.activeElement).toBe(title);
    press(title, "Tab", { shiftKey: true });
    expect(document.activeElement).toBe(last);
  });

  test("leaving the screen closes it", () => {
    const closed = vi.spyOn(HTMLDialogElement.prototype, "close");
    open();
    show(<p>Another screen</p>);
    expect(closed).toHaveBeenCalledTimes(1);
  });
});

describe("message bar", () => {
  const undone = vi.fn();
  const gone = vi.fn();
  const first: MessageShown = { id: "1", text: "Finished.", undo: { label: "Undo", onUndo: undone } };
  const bar = (message: MessageShown | null, place = "queue 41 p-bodo") => (
    <MessageBar message={message} place={place} dismissLabel="Dismiss" onGone={gone} />
  );
  const wait = (ms: number) => does(() => vi.advanceTimersByTime(ms));

  beforeEach(() => {
    vi.useFakeTimers();
    undone.mockClear();
    gone.mockClear();
  });
  afterEach(() => vi.useRealTimers());

  test("the region that speaks is there before there is anything to say, and its buttons are no part of it", () => {
    show(bar(null));
    const region = document.querySelector("[role=status]");
    expect(status()).toBe("");
    show(bar(first));
    expect(document.querySelector("[role=status]")).toBe(region);
    expect(status()).toBe("Finished.");
  });

  test("it is gone after six seconds, and not before", () => {
    show(bar(first));
    wait(MESSAGE_MS - 1);
    expect(gone).not.toHaveBeenCalled();
    wait(1);
    expect(gone).toHaveBeenCalledTimes(1);
    expect(MESSAGE_MS).toBe(6000);
  });

  test("another message has its own six seconds", () => {
    show(bar(first));
    wait(MESSAGE_MS - 1);
    show(bar({ id: "2", text: "Started." }));
    wait(MESSAGE_MS - 1);
    expect(gone).not.toHaveBeenCalled();
    wait(1);
    expect(gone).toHaveBeenCalledTimes(1);
  });

  test("drawing the screen again does not make it stay", () => {
    show(bar(first));
    for (let second = 0; second < 6; second += 1) {
      wait(1000);
      show(bar({ ...first }));
    }
    expect(gone).toHaveBeenCalledTimes(1);
  });

  test("it stays for as long as somebody is at it", () => {
    const page = show(bar(first));
    const undo = get("button", "Undo");
    does(() => undo.dispatchEvent(new FocusEvent("focusin", { bubbles: true })));
    wait(10 * MESSAGE_MS);
    expect(gone).not.toHaveBeenCalled();
    does(() => undo.dispatchEvent(new FocusEvent("focusout", { bubbles: true })));
    wait(MESSAGE_MS);
    expect(gone).toHaveBeenCalledTimes(1);
    expect(page.textContent).toContain("Undo");
  });

  test("undo undoes once, and takes it away", () => {
    show(bar(first));
    wait(1000);
    click(get("button", "Undo"));
    expect([undone.mock.calls.length, gone.mock.calls.length]).toEqual([1, 1]);
  });

  test("the second tap of one glove, where the bar came up, undoes nothing", () => {
    show(bar(first));
    wait(300);
    click(get("button", "Undo"));
    expect([undone.mock.calls.length, gone.mock.calls.length]).toEqual([0, 0]);
    wait(1000);
    show(bar({ ...first, id: "2" }));
    click(get("button", "Undo"));
    expect(undone).not.toHaveBeenCalled();
  });

  test.each(["service 41 p-bodo", "queue 42 p-bodo", "queue 41 p-kasp"])("it is gone at %s", (place) => {
    show(bar(first));
    show(bar(first, place));
    expect(gone).toHaveBeenCalledTimes(1);
    expect(undone).not.toHaveBeenCalled();
  });

  test("what is said at the new place stays there", () => {
    show(bar(null));
    show(bar(null, "service 41 p-bodo"));
    show(bar(first, "service 41 p-bodo"));
    expect(gone).not.toHaveBeenCalled();
  });
});
