/** Fields, money, list editor. */

import { useState } from "preact/hooks";
import { SelectField, TextField } from "../../src/view/ui/Field";
import { ListEditor } from "../../src/view/ui/ListEditor";
import { Money, MoneyField } from "../../src/view/ui/Money";
import { Case, nothing } from "../Case";

const WORDS = {
  add: "Add",
  empty: "Nothing is included yet.",
  remove: (label: string) => `Take ${label} out`,
  added: (label: string) => `${label} added.`,
  removed: (label: string) => `${label} taken out.`,
};
const PAIRS = [
  { value: "SS7", label: "SS7 Thornquell" },
  { value: "SS8", label: "SS8 Harrow" },
];

function Texts() {
  const [name, setName] = useState("Marlies Ohm");
  return (
    <Case name="Field: usual, hint, problem, unit, list, several lines, can't be changed">
      <TextField label="Customer" value={name} onInput={setName} />
      <TextField label="Door code" hint="Four digits, for the van." value="" inputMode="numeric" onInput={nothing} />
      <TextField
        label="Stage km"
        unit="km"
        value="182"
        problem="SS7 is 16.4 km long: type a place within it."
        inputMode="decimal"
        onInput={nothing}
      />
      <SelectField label="Stage" value="SS8" options={PAIRS} onChange={nothing} />
      <TextField label="Note" lines={2} value="Cover cut to the braid, dry." onInput={nothing} />
      <TextField label="Event" value="Thornquell Gravel Days" disabled onInput={nothing} />
    </Case>
  );
}

function Amounts() {
  const [excess, setExcess] = useState("1500.00");
  return (
    <Case name="Money: typed, wrong, shown">
      <MoneyField label="Excess per incident, before tax" currency="EUR" value={excess} onInput={setExcess} />
      <MoneyField
        label="Unit cost"
        currency="EUR"
        value=""
        problem="Unit cost is empty: type a price, 0 if free."
        onInput={nothing}
      />
      <p>
        <Money amount="1,135.32" /> · <Money amount="−59.80" currency="EUR" strong />
      </p>
    </Case>
  );
}

function Words() {
  const [items, setItems] = useState(["4 tyres", "1 set of pads"]);
  const check = (text: string) => (items.includes(text) ? `${text} is in the list already.` : null);
  return (
    <Case name="List editor: filled, empty">
      <ListEditor
        label="Included in the hire"
        items={items.map((label) => ({ id: label, label }))}
        words={WORDS}
        check={check}
        onAdd={(text) => setItems((now) => [...now, text])}
        onRemove={(id) => setItems((now) => now.filter((one) => one !== id))}
      />
      <ListEditor label="Never charged" items={[]} words={WORDS} onAdd={nothing} onRemove={nothing} />
    </Case>
  );
}

export function Fields() {
  return (
    <>
      <Texts />
      <Amounts />
      <Words />
    </>
  );
}
