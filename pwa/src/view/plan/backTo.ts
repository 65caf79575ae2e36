/** Back from a task's page, the plan opens where the task was tapped: in a long plan nobody searches for it again. */

import { useEffect } from "preact/hooks";
import { taskHref } from "./labels";

let left: string | null = null;

/** On a task's page: remembers it when the way leads back to the plan, and only then. */
export function useWayBack(task: string): void {
  useEffect(
    () => () => {
      left = location.hash === "#/plan" ? task : null;
    },
    [task],
  );
}

/** On the plan: brings the task that was left into sight and gives it the focus. */
export function useReturn(): void {
  useEffect(() => {
    const task = left;
    left = null;
    if (task === null) return;
    // After the arrival on the screen, which puts it at its top.
    const frame = requestAnimationFrame(() => {
      const link = document.querySelector<HTMLElement>(`.lane-task[href="${CSS.escape(taskHref(task))}"]`);
      link?.focus({ preventScroll: true });
      link?.scrollIntoView({ block: "center" });
    });
    return () => cancelAnimationFrame(frame);
  }, []);
}
