/** Puts the screens on the page, beside the engine that feeds them. */

import { render } from "preact";
import { useEffect, useState } from "preact/hooks";
import { type Engine, startEngine } from "./flow/engine";
import { App } from "./view/App";
import { speakHere } from "./view/shell/language";

function Root({ engine }: { engine: Engine }) {
  const [state, setState] = useState(engine.state());
  useEffect(() => engine.subscribe(setState), [engine]);
  return <App state={state} actions={engine.actions} />;
}

async function begin(): Promise<void> {
  // Words that can't be had, as on a first visit that lost its signal, leave the page English rather than empty.
  await speakHere().catch((error: unknown) => console.warn(String(error)));
  const place = document.getElementById("app");
  if (place) render(<Root engine={startEngine()} />, place);
}

void begin();
