/** A server of a few lines that keeps what it is sent, and answers as badly as a test asks. */

import type { Device, Entry, EventSetup, SetupFiles } from "../src/kit/api";
import type { Versions } from "../src/store/current";
import type { Fetch } from "../src/sync/wire";
import { setup } from "./making";

type Fault = (server: FakeServer, path: string, init: RequestInit) => Promise<Response> | Response | null;

export class FakeServer {
  log_id = "log-1";
  log: { entry: Entry; text: string }[] = [];
  photos = new Map<string, number>();
  tokens = new Map<string, string>();
  /** Each call: method, path, token, number of entries. */
  calls: { path: string; token: string; entries: Entry[] }[] = [];
  /** Answers in place of the server, one call each; null lets the call through. */
  faults: Fault[] = [];
  refuses = new Map<string, string>();
  page = 500;
  /** Tokens of devices that were sent nothing yet: whatever cursor comes with them, they are to begin again. */
  unsent = new Set<string>();
  /** What /setup says; PUT /devices and PUT /events add to it. */
  devices: Device[] = [];
  events: EventSetup[] = [];
  files = new Map<string, SetupFiles>();
  /** With signatures demanded, only entries of known devices are taken. */
  demands = false;
  /** What a sync says of versions; null as a server of 0.1.0 does. */
  versions: Versions | null = null;

  fetch: Fetch = async (url, init) => {
    const path = url.replace("/api/v1", "");
    const headers = init.headers as Record<string, string>;
    const token = headers.Authorization?.replace("Bearer ", "") ?? "";
    const body = typeof init.body === "string" ? JSON.parse(init.body) : {};
    this.calls.push({ path, token, entries: body.entries ?? [] });
    const fault = this.faults.shift()?.(this, path, init);
    if (fault) return fault;
    if (!this.tokens.has(token)) return problem(401, "not-joined", "This phone has not joined here");
    if (path === "/sync") return json(200, this.sync(body, token));
    if (path === "/setup") return json(200, { log_id: this.log_id, events: this.events, devices: this.devices });
    if (path === "/devices") return json(200, this.takeDevices(body.devices));
    if (init.method === "PUT" && path.startsWith("/events/")) return this.takeEvent(path.slice(8), body);
    if (path.startsWith("/photos/")) return this.put(path.slice(8), init.body as ArrayBuffer);
    return problem(404, "not-found", "Not found");
  };

  sync(body: { log_id: string | null; cursor: number; entries: Entry[] }, token = "") {
    const accepted: string[] = [];
    const rejected: { id: string; problem: unknown }[] = [];
    for (const entry of body.entries) {
      const code = this.refuses.get(entry.id) ?? this.store(entry);
      if (code) rejected.push({ id: entry.id, problem: problemBody(400, code, code) });
      else accepted.push(entry.id);
    }
    const { log_id } = this;
    if (this.unsent.has(token) && body.cursor > 0) {
      return { log_id, cursor: 0, accepted, rejected, entries: [], more: true };
    }
    this.unsent.delete(token);
    const isSame = body.log_id === null || (body.log_id === this.log_id && body.cursor <= this.log.length);
    const from = isSame ? body.cursor : 0;
    const cursor = Math.min(from + this.page, this.log.length);
    const entries = this.log.slice(from, cursor).map((one) => one.entry);
    const news = entries.filter((one) => !accepted.includes(one.id));
    const said = this.versions && { ...this.versions, cars: entries.map(({ event, car }) => ({ event, car })) };
    return { log_id, cursor, accepted, rejected, entries: news, more: cursor < this.log.length, ...said };
  }

  takeDevices(devices: Device[]) {
    this.devices.push(...devices);
    return { devices: devices.length, believed: 0 };
  }

  takeEvent(event: string, files: SetupFiles): Response {
    this.files.set(event, files);
    this.events.push(setup({ event }));
    return json(200, { event, rates: "" });
  }

  store(entry: Entry): string | null {
    if (this.demands && !this.devices.some((one) => one.device === entry.device)) return "unknown-device";
    const text = JSON.stringify(entry);
    const held = this.log.find((one) => one.entry.id === entry.id);
    if (held) return held.text === text ? null : "conflict";
    this.log.push({ entry, text });
    return null;
  }

  put(photo: string, bytes: ArrayBuffer): Response {
    this.photos.set(photo, bytes.byteLength);
    return json(201, { photo, width: 4, height: 3 });
  }

  ids(): string[] {
    return this.log.map((one) => one.entry.id);
  }
}

export function json(status: number, body: unknown, type = "application/json"): Response {
  return new Response(JSON.stringify(body), { status, headers: { "Content-Type": type } });
}

export function problemBody(status: number, code: string, title: string) {
  return { type: `https://shuntbook.invalid/problems/${code}`, title, status, detail: title };
}

export function problem(status: number, code: string, title: string): Response {
  return json(status, problemBody(status, code, title), "application/problem+json");
}

/** What a station's captive portal says to everything. */
export const PORTAL: Fault = () =>
  new Response("<!doctype html><title>Free Wi-Fi</title>", { status: 200, headers: { "Content-Type": "text/html" } });

/** The server did what it was asked, and the answer is lost half way. */
export const CUT: Fault = (server, _path, init) => {
  const text = JSON.stringify(server.sync(JSON.parse(init.body as string)));
  return new Response(text.slice(0, text.length / 2), { headers: { "Content-Type": "application/json" } });
};

export const NO_NETWORK: Fault = () => Promise.reject(new TypeError("Failed to fetch"));
