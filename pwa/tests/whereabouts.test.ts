/** Km by position, between places of the road book. */

import { expect, test } from "vitest";
import { offset, onStage } from "../src/report/whereabouts";

const dms = (degrees: number, minutes: number, seconds: number) =>
  Math.sign(degrees) * (Math.abs(degrees) + minutes / 60 + seconds / 3600);
const at = (lat: number, lon: number, accuracy_m = 10) => ({ lat, lon, accuracy_m });

// Geoscience Australia's worked example for Vincenty's formula, Flinders Peak to Buninyong, 54,972.271 m on the ellipsoid
// of GRS 80, which is WGS 84's to a tenth of a millimetre here; figures from memory.
test("a distance is that of the geodesist's worked example to 20 m in 55 km", () => {
  const flinders = { lat: dms(-37, 57, 3.7203), lon: dms(144, 25, 29.5244) };
  const buninyong = { lat: dms(-37, 39, 10.1561), lon: dms(143, 55, 35.3839) };
  const { east_m, north_m } = offset(flinders, buninyong);
  expect(Math.abs(Math.hypot(east_m, north_m) - 54_972.271)).toBeLessThan(20);
  expect(east_m).toBeLessThan(0);
  expect(north_m).toBeGreaterThan(0);
});

// WGS 84: one degree of latitude at the equator is 110.574 km, of longitude 111.320 km (any table of the ellipsoid).
test("a degree at the equator has the ellipsoid's length", () => {
  expect(offset(at(-0.5, 0), at(0.5, 0)).north_m / 1000).toBeCloseTo(110.574, 3);
  expect(offset(at(0, 0), at(0, 1)).east_m / 1000).toBeCloseTo(111.32, 2);
});

test("over the date line it is a short way", () => {
  expect(offset(at(0, 179.9), at(0, -179.9)).east_m).toBeCloseTo(0.2 * 111_319.5, -1);
});

const PLACES = [
  { stage: "SS1", km: 0, lat: 43, lon: -19 },
  { stage: "SS1", km: 12, lat: 43.1, lon: -19 },
  { stage: "SS1", km: 16, lat: 43.1, lon: -18.95 },
  { stage: "SS2", km: 0, lat: 50, lon: -19 },
];

test("km runs with the road book between two places, though the road is longer than the line", () => {
  expect(onStage(at(43, -19), "SS1", PLACES)?.km).toBe(0);
  expect(onStage(at(43.05, -19), "SS1", PLACES)?.km).toBe(6);
  expect(onStage(at(43.1, -18.975), "SS1", PLACES)?.km).toBe(14);
  expect(onStage(at(43.1, -18.94), "SS1", PLACES)?.km).toBe(16);
});

test("beside the line it says how much it may be out, the phone's own error in it", () => {
  expect(onStage(at(43.05, -19, 30), "SS1", PLACES)?.about_m).toBe(30);
  const beside = onStage(at(43.05, -18.99, 30), "SS1", PLACES);
  expect(beside?.km).toBe(6);
  expect(beside?.about_m).toBeGreaterThan(800);
  expect(beside?.about_m).toBeLessThan(900);
});

test("far from the stage, or with one place or none, there is no km", () => {
  expect(onStage(at(43.05, -18.9), "SS1", PLACES)).toBeNull();
  expect(onStage(at(50, -19), "SS2", PLACES)).toBeNull();
  expect(onStage(at(43, -19), null, PLACES)).toBeNull();
});
