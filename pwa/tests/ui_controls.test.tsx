// @vitest-environment happy-dom
/** What buttons, choices, steppers and fields do. The keys of the stepper are those of the ARIA pattern for spin buttons. */

import { useState } from "preact/hooks";
import { describe, expect, test, vi } from "vitest";
import { writtenAmount } from "../src/view/ui/amounts";
import { Button } from "../src/view/ui/Button";
import { Chips, Segmented } from "../src/view/ui/Choice";
import { MoneyField } from "../src/view/ui/Money";
import { Stepper } from "../src/view/ui/Stepper";
import { stepTo } from "../src/view/ui/stepping";
import { click, does, get, press, show, type } from "./ui_dom";

const OPTIONS = ["Well", "Badly", "No"].map((value) => ({ value, label: value }));
const radios = () => [...document.querySelectorAll<HTMLInputElement>("input")];

describe("button", () => {
  test("one that can't be pressed yet says why, stays reachable, and does nothing", () => {
    const tapped = vi.fn();
    show(
      <Button unavailable="why" onClick={tapped}>
        Sign
      </Button>,
    );
    const button = get("button", "Sign") as HTMLButtonElement;
    click(button);
    expect(tapped).not.toHaveBeenCalled();
    expect(button.disabled).toBe(false);
    expect(button.getAttribute("aria-disabled")).toBe("true");
    expect(button.getAttribute("aria-describedby")).toBe("why");
  });

  test("one whose tap is still being done sends no form a second time", () => {
    const sent = vi.fn((event: Event) => event.preventDefault());
    show(
      <form onSubmit={sent}>
        <Button type="submit" busy>
          Send
        </Button>
      </form>,
    );
    click(get("button", "Send"));
    expect(sent).not.toHaveBeenCalled();
    show(
      <form onSubmit={sent}>
        <Button type="submit">Send</Button>
      </form>,
    );
    click(get("button", "Send"));
    expect(sent).toHaveBeenCalledTimes(1);
  });
});

describe("segmented control", () => {
  function Drives() {
    const [value, setValue] = useState<string | null>(null);
    return <Segmented legend="Does it still drive?" options={OPTIONS} value={value} onChange={setValue} />;
  }

  test("radio buttons of one name under a legend, none chosen at first; a tap moves the choice", () => {
    show(<Drives />);
    expect(document.querySelector("legend")?.textContent).toBe("Does it still drive?");
    expect(new Set(radios().map((one) => one.name)).size).toBe(1);
    const chosen = () => radios().map((one) => one.checked);
    expect(chosen()).toEqual([false, false, false]);
    for (const at of [1, 2]) {
      const radio = radios()[at];
      if (radio) click(radio);
      expect(chosen()).toEqual([0, 1, 2].map((one) => one === at));
    }
  });

  test("two on a page do not share their choice", () => {
    show(
      <>
        <Drives />
        <Drives />
      </>,
    );
    expect(new Set(radios().map((one) => one.name)).size).toBe(2);
  });
});

test("chips: several are toggled one by one, and each says which way", () => {
  const toggled = vi.fn();
  show(<Chips legend="Parts" several options={OPTIONS} chosen={["No"]} onToggle={toggled} />);
  for (const one of radios()) click(one);
  expect(toggled.mock.calls).toEqual([
    ["Well", true],
    ["Badly", true],
    ["No", false],
  ]);
});

describe("stepper", () => {
  function Pressure({ start = 2 }: { start?: number }) {
    const [value, setValue] = useState(start);
    return (
      <Stepper
        label="Pressure"
        value={value}
        least={1}
        most={3}
        step={0.1}
        largeStep={0.5}
        text={`${value} bar`}
        words={{ less: "Less", more: "More" }}
        onChange={setValue}
      />
    );
  }
  const spin = () => document.querySelector<HTMLElement>("[role=spinbutton]") ?? expect.fail("no spin button");
  const now = () => spin().getAttribute("aria-valuenow");

  test("buttons go step by step, with as many decimals as the step", () => {
    show(<Pressure />);
    for (const expected of ["2.1", "2.2", "2.3"]) {
      click(get("button", "More"));
      expect(now()).toBe(expected);
    }
    click(get("button", "Less"));
    expect(spin().getAttribute("aria-valuetext")).toBe("2.2 bar");
  });

  test("arrows, page keys and ends; other keys are left alone", () => {
    show(<Pressure />);
    const after = (key: string) => {
      press(spin(), key);
      return now();
    };
    expect(["ArrowUp", "ArrowRight", "ArrowDown", "PageUp", "End", "ArrowUp", "Home", "ArrowLeft"].map(after)).toEqual([
      ..."2.1 2.2 2.1 2.6 3 3 1 1".split(" "),
    ]);
    const tab = new KeyboardEvent("keydown", { key: "Tab", bubbles: true, cancelable: true });
    does(() => spin().dispatchEvent(tab));
    expect(tab.defaultPrevented).toBe(false);
  });

  test("at an end its button can't be pressed, and says so; nothing is told that did not change", () => {
    const changed = vi.fn();
    const words = { less: "Less", more: "More" };
    show(<Stepper label="Worked" value={0} least={0} text="0 min" words={words} onChange={changed} />);
    expect(get("button", "Less").getAttribute("aria-disabled")).toBe("true");
    expect(get("button", "More").getAttribute("aria-disabled")).toBeNull();
    click(get("button", "Less"));
    press(spin(), "ArrowDown");
    press(spin(), "End");
    expect(changed).not.toHaveBeenCalled();
    expect(spin().hasAttribute("aria-valuemax")).toBe(false);
  });

  test("a sum of decimals reads as it was added", () => {
    expect(stepTo(0.1, 0.2, { least: 0, most: 1, step: 0.1 })).toBe(0.3);
    expect(stepTo(1.005, 1, { least: 0, most: 9, step: 1 })).toBe(2.005);
  });
});

describe("money", () => {
  test.each([
    ["1200", 2, "1200.00"],
    ["12,5", 2, "12.50"],
    [" -3.10 ", 2, "-3.10"],
    ["−3", 2, "-3.00"],
    ["007", 0, "7"],
    ["0", 2, "0.00"],
    ["5.", 2, "5.00"],
  ])("%s with %i digits is written %s", (typed, digits, written) => {
    expect(writtenAmount(typed, digits)).toBe(written);
  });

  test.each(["", "abc", "1.200", "1,200.00", "1.2.3", "1e3", "--1", "0x10"])(
    "%s is no amount, and nothing is guessed",
    (typed) => {
      expect(writtenAmount(typed, 2)).toBeNull();
    },
  );

  test("an amount is written in full when the field is left; what is none stays as it was typed", () => {
    const typed = vi.fn();
    const money = (value: string, problem?: string) => (
      <MoneyField label="Unit cost" currency="EUR" value={value} problem={problem} onInput={typed} />
    );
    show(money("12,5"));
    const field = document.querySelector("input") ?? expect.fail("no field");
    does(() => field.dispatchEvent(new FocusEvent("blur")));
    expect(typed.mock.calls).toEqual([["12.50"]]);
    show(money("1.200", "Type it without a mark for thousands."));
    does(() => field.dispatchEvent(new FocusEvent("blur")));
    expect(typed.mock.calls).toEqual([["12.50"]]);
  });

  test("its unit and its problem are read with it", () => {
    show(<MoneyField label="Unit cost" currency="EUR" value="" problem="It is empty." onInput={() => {}} />);
    const field = document.querySelector("input") ?? expect.fail("no field");
    expect(field.getAttribute("aria-invalid")).toBe("true");
    const described = (field.getAttribute("aria-describedby") ?? "")
      .split(" ")
      .map((id) => document.getElementById(id));
    expect(described.map((one) => one?.textContent)).toEqual(["EUR", "It is empty."]);
    expect(document.querySelector("label")?.htmlFor).toBe(field.id);
    type(field, "7");
  });
});
