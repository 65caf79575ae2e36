/** Which reports are of one hit, held to the cases that the server holds to; and what is put down when they are grouped. */

import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { groupingsFor, laterThan, NOTHING_SAID, saidOf, takenApart } from "../src/report/grouping";
import { type Grouped, hitsOf, incidentsOf, standingGroups } from "../src/report/incidents";
import { othersOf, othersText } from "../src/report/others";
import { uuid7 } from "../src/kit/uuid7";
import { CAR, entry, held, heldAll } from "./making";

interface Case {
  why: string;
  caused_by: Record<string, string | null>;
  groupings: { id: string; reports: string[]; replaces: string[] }[];
  incidents: Record<string, string>;
}

const FILE = new URL("../../schemas/vectors/incidents.json", import.meta.url);
const { cases } = JSON.parse(readFileSync(FILE, "utf8")) as { cases: Case[] };

const grouped = (id: string, reports: string[], replaces: string[] = [], more = {}) =>
  entry("incident.grouped", { reports, replaces, ...more }, { id }) as Grouped;

describe("the rule", () => {
  test("there are cases", () => expect(cases.length).toBeGreaterThanOrEqual(10));

  test.each(cases.map((one) => [one.why, one] as const))("%s", (_, one) => {
    const made = one.groupings.map(({ id, reports, replaces }) => grouped(id, reports, replaces));
    for (const entries of [made, [...made].reverse()]) {
      const found = incidentsOf(entries, new Map(Object.entries(one.caused_by)));
      expect(Object.fromEntries([...found].map(([report, { incident }]) => [report, incident]))).toEqual(one.incidents);
    }
  });
});

describe("hits of a car", () => {
  const filed = (id: string, minute: number, data = {}, car = CAR) =>
    entry(
      "report.filed",
      { zone: "rear", ...data },
      { id, car, at: `2026-05-16T13:${String(minute).padStart(2, "0")}:00+02:00` },
    );

  test("newest first, each with its reports oldest first; other cars and refused entries left out", () => {
    const refused = { type: "x", title: "x", status: 422 } as never;
    const hits = hitsOf(
      [
        ...heldAll(filed("a", 1), filed("b", 2), filed("c", 3, { caused_by: "a" }), filed("d", 4, {}, "42")),
        held(grouped("g", ["a", "b"]), { problem: refused }),
      ],
      CAR,
    );
    expect(hits.map((hit) => hit.told.map((one) => one.report))).toEqual([["b"], ["a", "c"]]);
  });

  test("a grouping has its words and what hangs on its reports", () => {
    const [hit] = hitsOf(
      heldAll(
        filed("a", 1),
        filed("b", 2),
        filed("c", 3, { caused_by: "b" }),
        grouped("g", ["a", "b"], [], { title: "The bank" }),
      ),
      CAR,
    );
    expect(hit?.incident).toBe("g");
    expect(hit?.grouping?.data.title).toBe("The bank");
    expect(hit?.told.map((one) => one.report)).toEqual(["a", "b", "c"]);
  });
});

describe("what is put down", () => {
  test("reports in order, once, and nothing that was not said", () => {
    const said = { ...NOTHING_SAID, reports: ["b", "a", "b"], title: "  The bank ", injured: " " };
    expect(groupingsFor(said, null, [])).toEqual([{ reports: ["a", "b"], title: "The bank" }]);
  });

  test("a change takes over what it changes, and a report left out of it is alone again", () => {
    const old = grouped("g1", ["a", "b"], [], { title: "The bank" });
    const said = { ...saidOf(old.data), reports: ["a"], property_hit: "Fence" };
    const made = groupingsFor(said, "g1", [old]);
    expect(made).toEqual([{ reports: ["a"], title: "The bank", property_hit: "Fence", replaces: ["g1"] }]);
  });

  test("a report that moves leaves the rest of its hit with its words", () => {
    const old = grouped("g1", ["a", "b", "c"], [], { title: "The bank" });
    const made = groupingsFor({ ...NOTHING_SAID, reports: ["c", "d"] }, null, [old]);
    expect(made).toEqual([
      { reports: ["c", "d"], replaces: ["g1"] },
      { reports: ["a", "b"], title: "The bank", replaces: ["g1"] },
    ]);
    const after = [old, ...made.map((data, place) => grouped(`g${place + 2}`, data.reports, data.replaces))];
    const alone = new Map(["a", "b", "c", "d"].map((report) => [report, null]));
    const found = incidentsOf(after, alone);
    expect(["a", "b", "c", "d"].map((report) => found.get(report)?.incident)).toEqual(["g3", "g3", "g2", "g2"]);
  });

  test("one that is left alone with nothing said needs no grouping", () => {
    const made = groupingsFor({ ...NOTHING_SAID, reports: ["b", "c"] }, null, [grouped("g1", ["a", "b"])]);
    expect(made).toEqual([{ reports: ["b", "c"], replaces: ["g1"] }]);
  });

  test("taken apart, none stands that holds the reports", () => {
    const apart = grouped("g2", [], takenApart("g1").replaces);
    expect([...standingGroups([grouped("g1", ["a", "b"]), apart]).keys()]).toEqual(["g2"]);
  });

  test("it comes after what it takes over, also where a clock ran ahead", () => {
    const ahead = uuid7(5_000_000);
    expect(laterThan([ahead], 1_000_000)).toBe(5_000_001);
    expect(laterThan([ahead], 9_000_000)).toBe(9_000_000);
    expect(laterThan(["not-an-id"], 7)).toBe(7);
    expect(uuid7(laterThan([ahead], 0)) > ahead).toBe(true);
  });
});

describe("the card for an accident on the road", () => {
  test("fields become lines and come back", () => {
    const others = {
      name: "A. Driver",
      plate: "X 123",
      insurer: "",
      witnesses: "two walkers",
      police: "77/26",
      more: "left turn\nwet",
    };
    const text = "Name: A. Driver\nPlate: X 123\nWitnesses: two walkers\nPolice number: 77/26\nleft turn\nwet";
    expect(othersText(others)).toBe(text);
    expect(othersOf(text)).toEqual(others);
  });

  test("what somebody else wrote is kept as it is", () => {
    const text = "Plate: X 1\nPlate: X 2\nNo name given";
    expect(othersText(othersOf(text))).toBe(text);
  });
});
