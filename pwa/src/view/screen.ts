/** What the app hands to each screen. */

import type { EventSetup, Service } from "../kit/api";
import type { Actions, AppState } from "../flow/model";

export interface ScreenProps {
  state: AppState;
  actions: Actions;
}

/** A screen of one car: event and car are chosen. */
export interface CarScreen extends ScreenProps {
  setup: EventSetup;
  car: string;
}

/** A part of a screen that is about one service. */
export interface AtService extends CarScreen {
  service: Service;
}
