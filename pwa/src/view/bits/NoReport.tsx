/** Stands where a report is asked for that this phone does not hold. */

import { log } from "../words/log";

export const NoReport = () => (
  <div class="stack">
    <h1>{log.amendTitle}</h1>
    <p>{log.notFound}</p>
    <a class="button" href="#/reports">
      {log.toReports}
    </a>
  </div>
);
