/** Redeems a join code: the one thing that needs the server there. */

import type { Joined, PublicKey, Role } from "../kit/api";
import type { DeviceKey } from "../kit/device_key";
import { messages } from "../kit/messages";
import type { IdentityRecord } from "../store/db";
import { call, type Fetch, isObject } from "./wire";

const ROLES: readonly string[] = ["driver", "co-driver", "mechanic", "inspector", "manager"];

/** `again`: whether the same code may still work later. */
export type JoinReply = { joined: Joined; second?: boolean } | { failed: string; again: boolean };

/** `second_key`: of a PIN. `beside`: a device that joined on this phone before: what it was sent is here. */
interface Besides {
  second_key?: PublicKey | undefined;
  beside?: string | undefined;
}

/**
 * Ask the server to let this phone in; the device's public key goes with it, where it has one.
 * `second` of the reply: whether the server took the key of the PIN.
 */
export async function askToJoin(
  fetcher: Fetch,
  code: string,
  key: DeviceKey | null,
  { second_key, beside }: Besides = {},
): Promise<JoinReply> {
  const json = {
    code,
    ...(key && { key: key.public }),
    ...(second_key && { second_key }),
    ...(beside && { beside }),
  };
  const reply = await call(fetcher, { method: "POST", path: "/join", token: null, json });
  // A server of 0.1 refuses a field that it does not know, and spends no code.
  if (reply.kind === "problem" && reply.status === 422 && (second_key || beside)) return askToJoin(fetcher, code, key);
  if (reply.kind === "problem") {
    return { failed: `${reply.problem.title}. ${reply.problem.detail ?? ""}`.trim(), again: false };
  }
  const joined = reply.kind === "ok" ? joinedOf(reply.body) : null;
  if (joined) return second_key ? { joined, second: true } : { joined };
  return {
    failed: messages.joinNoServer,
    again: true,
  };
}

/** Return the SHA-256 of a code in hex; where the page may not (plain http), the code itself, spent by then. */
export async function codeHash(code: string): Promise<string> {
  if (!globalThis.crypto?.subtle) return code;
  const hash = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(code));
  return Array.from(new Uint8Array(hash), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Return the identity to keep. */
export function identityOf(
  joined: Joined,
  code_hash: string,
  joined_at: string,
  key: DeviceKey | null,
): IdentityRecord {
  const { token, device, person, name, roles, events } = joined;
  return { token, device, person, name, roles, events, code_hash, joined_at, refused: false, key, pin: null };
}

function joinedOf(body: unknown): Joined | null {
  if (!isObject(body)) return null;
  const { token, device, person, name, roles, events } = body;
  if (typeof token !== "string" || typeof device !== "string" || typeof person !== "string") return null;
  return {
    token,
    device,
    person,
    name: typeof name === "string" ? name : person,
    roles: strings(roles).filter((role) => ROLES.includes(role)) as Role[],
    events: strings(events),
  };
}

function strings(value: unknown): string[] {
  return Array.isArray(value) ? value.filter((one) => typeof one === "string") : [];
}
