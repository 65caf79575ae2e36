"""Whether letters can be told from their ground as they are painted, whatever the style sheets say."""

import io
from collections import Counter

from PIL import Image
from playwright.sync_api import Locator

# Seen in Chromium: the ground has 0.59 to 0.76 of a line's box; 0.88 to 0.95 with letters in the colour of what is laid
# behind them, which is a little lower than the box.
MOST_GROUND = 0.82
LINE = """one => {
  const texts = document.createTreeWalker(one, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  while (texts.nextNode()) {
    range.selectNodeContents(texts.currentNode);
    const line = range.getClientRects()[0];
    const { left, top } = one.getBoundingClientRect();
    if (line?.width > 4) return [line.left - left, line.top - top, line.right - left, line.bottom - top];
  }
  return null;
}"""


def vanished(thing: Locator) -> bool:
    """Return whether the first line of a thing is painted without letters."""
    line = thing.evaluate(LINE)
    assert line, "a thing without words"
    picture = Image.open(io.BytesIO(thing.screenshot(animations="disabled"))).convert("L").crop(line)
    greys = Counter(grey // 16 for grey in picture.tobytes())
    return max(greys.values()) > MOST_GROUND * greys.total()
