/** Draws public/*.png from the same shapes as public/icon.svg: no picture tool is needed, and the bytes never change. */

import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { deflateSync } from "node:zlib";

const PUBLIC = fileURLToPath(new URL("../public/", import.meta.url));
const GROUND = [0x12, 0x18, 0x1f];
const BODY = [0xf2, 0xf5, 0xf7];
const HIT = [0xff, 0x9d, 0x2e];
const SAMPLES = 4;

/** @typedef {{ colour: number[], points?: number[], circle?: number[] }} Shape */
/** @typedef {{ scale: number, round: boolean }} Look */

/**
 * Shapes on a board of 512: painted in order, the last one on top.
 *
 * @type {Shape[]}
 */
const SHAPES = [
  { colour: BODY, points: [112, 312, 164, 220, 348, 220, 400, 312, 400, 384, 112, 384] },
  { colour: GROUND, circle: [164, 384, 44] },
  { colour: GROUND, circle: [316, 384, 44] },
  { colour: GROUND, points: [192, 244, 320, 244, 346, 296, 164, 296] },
  { colour: HIT, points: [352, 92, 326, 158, 370, 144, 340, 222, 432, 114, 384, 128, 410, 84] },
];

/** @param {Shape} shape @param {number} x @param {number} y */
function isInside({ points = [], circle }, x, y) {
  if (circle) return Math.hypot(x - circle[0], y - circle[1]) <= circle[2];
  let inside = false;
  for (let i = 0, j = points.length - 2; i < points.length; j = i, i += 2) {
    const [xi, yi, xj, yj] = [points[i], points[i + 1], points[j], points[j + 1]];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

/**
 * Colour [r, g, b, a] at a place on the board; the ground has round corners unless it is to be masked.
 *
 * @param {number} x
 * @param {number} y
 * @param {Look} look
 */
function colourAt(x, y, { scale, round }) {
  const [u, v] = [(x - 256) / scale + 256, (y - 256) / scale + 256];
  const shape = SHAPES.findLast((one) => isInside(one, u, v));
  if (shape) return [...shape.colour, 255];
  const [dx, dy] = [Math.max(Math.abs(x - 256) - 160, 0), Math.max(Math.abs(y - 256) - 160, 0)];
  return round && Math.hypot(dx, dy) > 96 ? [0, 0, 0, 0] : [...GROUND, 255];
}

/** @param {number} px @param {number} py @param {number} size @param {Look} look */
function pixel(px, py, size, look) {
  const sum = [0, 0, 0, 0];
  for (let s = 0; s < SAMPLES * SAMPLES; s++) {
    const x = ((px + ((s % SAMPLES) + 0.5) / SAMPLES) * 512) / size;
    const y = ((py + (Math.floor(s / SAMPLES) + 0.5) / SAMPLES) * 512) / size;
    const [r, g, b, a] = colourAt(x, y, look);
    sum[0] += r * a;
    sum[1] += g * a;
    sum[2] += b * a;
    sum[3] += a;
  }
  const alpha = sum[3] || 1;
  return [sum[0] / alpha, sum[1] / alpha, sum[2] / alpha, sum[3] / SAMPLES ** 2].map(Math.round);
}

const CRC = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

/** @param {string} name @param {Buffer} data */
function chunk(name, data) {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  let crc = 0xffffffff;
  for (const byte of body) crc = CRC[(crc ^ byte) & 255] ^ (crc >>> 8);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE((crc ^ 0xffffffff) >>> 0);
  return Buffer.concat([length, body, check]);
}

/**
 * PNG (W3C, second edition): signature, IHDR (8 bits, RGBA), one IDAT of unfiltered rows, IEND.
 *
 * @param {number} size
 * @param {Look} look
 */
function png(size, look) {
  const rows = Buffer.alloc(size * (size * 4 + 1));
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) rows.set(pixel(x, y, size, look), y * (size * 4 + 1) + 1 + x * 4);
  }
  const head = Buffer.from([0, 0, 0, 0, 0, 0, 0, 0, 8, 6, 0, 0, 0]);
  head.writeUInt32BE(size, 0);
  head.writeUInt32BE(size, 4);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk("IHDR", head),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

writeFileSync(`${PUBLIC}icon-192.png`, png(192, { scale: 1, round: true }));
writeFileSync(`${PUBLIC}icon-512.png`, png(512, { scale: 1, round: true }));
// A mask may cut away all but the middle four fifths (W3C, web app manifest, "safe zone").
writeFileSync(`${PUBLIC}icon-maskable-512.png`, png(512, { scale: 0.72, round: false }));
