/** Actions whose code is loaded with the first call: what the first screen does not need. */

import { messages } from "../kit/messages";
import { UserError } from "../kit/user_error";

// The parameters of any action: `never[]` is what every list of parameters takes.
type Action = (...asked: never[]) => unknown;
type NamesOf<Module> = { [Name in keyof Module]: Module[Name] extends Action ? Name : never }[keyof Module];
type Later<One> = One extends (...asked: infer Asked) => infer Done
  ? (...asked: Asked) => Promise<Awaited<Done>>
  : never;

/**
 * Return what names actions of a module that `load` imports: `const jobs = lazy(() => import("./jobs"))`, then
 * `jobs("startJob")`. Errors: UserError where the module can't be had, as without a network before all of the app is kept.
 */
export function lazy<Module extends object>(load: () => Promise<Module>) {
  return <Name extends NamesOf<Module>>(name: Name): Later<Module[Name]> => {
    const later = async (...asked: never[]) => ((await load().catch(notHere))[name] as Action)(...asked);
    // TypeScript can't see that a function which passes all on is of the type that it was computed from.
    return later as Later<Module[Name]>;
  };
}

// import() rejects with a TypeError where a module can't be fetched.
function notHere(error: unknown): never {
  throw error instanceof TypeError ? new UserError(messages.partNotHere) : error;
}
