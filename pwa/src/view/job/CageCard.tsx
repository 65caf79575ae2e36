/** A safety cage: stop, call the official, its maker decides. */

import { job as words } from "../words/job";

export const CageCard = () => (
  <div class="cage" role="note">
    <p class="strong">{words.cage.title}</p>
    <ul class="bulleted">
      {words.cage.steps.map((step) => (
        <li key={step}>{step}</li>
      ))}
    </ul>
  </div>
);
