/** Puts the screens on the page, beside the engine that feeds them. */

import { render } from "preact";
import { useEffect, useState } from "preact/hooks";
import { type Engine, startEngine } from "./flow/engine";
import { App } from "./view/App";

function Root({ engine }: { engine: Engine }) {
  const [state, setState] = useState(engine.state());
  useEffect(() => engine.subscribe(setState), [engine]);
  return <App state={state} actions={engine.actions} />;
}

const place = document.getElementById("app");
if (place) render(<Root engine={startEngine()} />, place);
