"""Whether anything is cut off or lies on something else: what goes wrong when letters grow or a screen is low."""

from playwright.sync_api import Page, ViewportSize

# Left out: what is meant for screen readers alone, what lies over the page on purpose and scrolls away from under it
# (bars at the edges), the file button's input, which is larger than its label on purpose, and two that say less on
# purpose: the sync state on a narrow phone, told by its shape, and a task in a lane, whole on its own page and in the
# table.
# What a long list does not draw while it is out of sight has no place yet.
CUT = """() => {
  const OVER = '.save-bar, .walk-bar, .ui-dock, .service-dock, .place-dock, .job-dock, .skip, ' +
    '.ui-frame-top, .ui-frame-foot, .ui-section, .ui-table thead, .ui-table tfoot';
  const shown = (one) => one.checkVisibility({
    visibilityProperty: true, opacityProperty: true, contentVisibilityAuto: true,
  });
  const apart = (one) => one.closest(`.unseen, .ui-sync, .car legend, .file, svg, .lane, ${OVER}`);
  const clips = (one) => getComputedStyle(one).overflowX !== 'visible';
  const root = document.querySelector('dialog[open]') ?? document.body;
  const bad = [];
  for (const one of root.querySelectorAll('*')) {
    if (!shown(one) || apart(one) || !one.innerText?.trim()) continue;
    const hides = ['hidden', 'clip'].includes(getComputedStyle(one).overflowX);
    const holds = one.matches('button, a.button, .chip > span, summary, .tag, th, td, label');
    const over = one.scrollWidth > one.clientWidth + 2;
    if (over && (hides || (holds && !clips(one)))) bad.push(`runs out: ${one.outerHTML.slice(0, 120)}`);
    const below = ['hidden', 'clip'].includes(getComputedStyle(one).overflowY);
    if (below && one.scrollHeight > one.clientHeight + 2) bad.push(`cut below: ${one.outerHTML.slice(0, 120)}`);
  }
  const lines = [];
  const texts = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  while (texts.nextNode()) {
    const node = texts.currentNode;
    const owner = node.parentElement;
    if (!node.data.trim() || !shown(owner) || apart(owner) || owner.closest('option, script, style')) continue;
    const frames = [];
    for (let one = owner; one; one = one.parentElement) if (clips(one)) frames.push(one.getBoundingClientRect());
    range.selectNodeContents(node);
    for (const { left, top, right, bottom } of range.getClientRects()) {
      const box = [left, top, right, bottom];
      for (const frame of frames) {
        box[0] = Math.max(box[0], frame.left); box[1] = Math.max(box[1], frame.top);
        box[2] = Math.min(box[2], frame.right); box[3] = Math.min(box[3], frame.bottom);
      }
      // Of a line at the edge of what scrolls, a sliver says nothing of what it lies on.
      const seen = box[2] - box[0] > 2 && box[3] - box[1] > Math.max(2, (bottom - top) / 2);
      if (seen) lines.push([box, node.data.trim().slice(0, 40)]);
    }
  }
  lines.forEach(([a, said], at) => lines.slice(at + 1).forEach(([b, other]) => {
    const wide = Math.min(a[2], b[2]) - Math.max(a[0], b[0]);
    const high = Math.min(a[3], b[3]) - Math.max(a[1], b[1]);
    if (wide > 3 && high > 0.4 * Math.min(a[3] - a[1], b[3] - b[1])) bad.push(`"${said}" lies on "${other}"`);
  }));
  return bad;
}"""

# The browser's own setting changes what 1rem is, in style sheets and in media queries. A page can set the first alone.
LETTERS = """percent => {
  document.documentElement.style.fontSize = percent === 100 ? '' : `${percent}%`;
  dispatchEvent(new Event('resize'));
}"""

# Pictures that fit themselves into their room are told of it after the next frame, and stand in it in the one after.
DRAWN = "() => new Promise((then) => requestAnimationFrame(() => requestAnimationFrame(() => then(true))))"


def cut_off(page: Page) -> list[str]:
    """Return what is cut off, or lies on something else."""
    answer: list[str] = page.evaluate(CUT)
    return answer


def letters(page: Page, percent: int) -> None:
    """Make letters larger, as the browser's setting of the font's size does."""
    page.evaluate(LETTERS, percent)
    page.evaluate(DRAWN)


def resize(page: Page, size: ViewportSize) -> None:
    """Show the page in a size, and wait until it is drawn in it."""
    page.set_viewport_size(size)
    page.evaluate(DRAWN)
