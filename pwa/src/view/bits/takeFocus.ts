/** As `ref` of a title or a field: it takes the focus when it comes on the screen, so that a screen reader says it. */
export const takeFocus = (one: HTMLElement | null) => one?.focus();
