/** The one Trusted Types policy: it lets through this app's own service worker and workers, nothing else. */

interface Policy {
  createScriptURL(url: string): unknown;
}
interface Factory {
  createPolicy(name: string, rules: { createScriptURL(url: string): string }): Policy;
}

const OWN_SCRIPTS = [/^\/sw\.js$/, /^\/assets\/(photo|queue)-[\w-]+\.js$/];

/** Return the URL if it is one of the app's own workers. Errors: TypeError for any other. */
export function ownScript(url: string, isDevelopment = import.meta.env.DEV): string {
  // Vite's own server, in development, names the worker's source file and sends no policy.
  const isOwn = OWN_SCRIPTS.some((own) => own.test(url)) || isDevelopment;
  if (!isOwn) throw new TypeError(`${url} is no worker of this app`);
  return url;
}

let policy: Policy | null = null;

/** Return a URL that the browser takes for a worker; a plain string where it knows no Trusted Types. */
export function trustedScript(url: string): string {
  const factory = (globalThis as { trustedTypes?: Factory }).trustedTypes;
  if (!factory) return ownScript(url);
  policy ??= factory.createPolicy("shuntbook", { createScriptURL: (url) => ownScript(url) });
  // The DOM's types ask for a string; the browser asks for a TrustedScriptURL.
  return policy.createScriptURL(url) as string;
}
