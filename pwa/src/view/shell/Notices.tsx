/** What every screen says where the address is not trusted, or what is logged carries no signature. */

import type { AppState } from "../../flow/model";
import { Insecure } from "./Insecure";
import { Unsigned } from "./Unsigned";

export const Notices = ({ state }: { state: AppState }) => (
  <>
    <Insecure />
    <Unsigned state={state} />
  </>
);
