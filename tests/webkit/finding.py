"""Finds things on a page as a person names them: by what they are and what they are called. Scripts run in the page."""

FIND = r"""
const [role, name, exact, inside] = arguments;
const TAGS = {
  button: 'button, [role=button], summary', link: 'a[href]', heading: 'h1, h2, h3, h4', listitem: 'li', row: 'tr',
  checkbox: 'input[type=checkbox]', radio: 'input[type=radio]', combobox: 'select', file: 'input[type=file]',
  textbox: 'input:not([type]), input[type=text], input[type=password], input[type=number], textarea',
  field: 'input, select, textarea', img: 'img, [role=img]', region: 'section, [role=region], fieldset, nav',
};
// Chips and file inputs are drawn away behind their labels: those count whether or not they are seen.
const UNSEEN = ['checkbox', 'radio', 'file', 'field'];
const clean = (text) => text.replace(/\s+/g, ' ').trim();
// What is drawn for eyes alone is no part of a name.
const spoken = (one) => {
  const copy = one.cloneNode(true);
  for (const hidden of copy.querySelectorAll('[aria-hidden=true]')) hidden.remove();
  return copy.textContent;
};
const textOf = (all) => [...all].map((one) => one ? spoken(one) : '').join(' ');
const called = (one) => {
  const by = one.getAttribute('aria-labelledby');
  if (by) return textOf(by.split(' ').map((id) => document.getElementById(id)));
  if (one.labels?.length) return one.getAttribute('aria-label') ?? textOf(one.labels);
  const legend = one.matches('fieldset') ? one.querySelector(':scope > legend') : null;
  return one.getAttribute('aria-label') ?? one.getAttribute('alt') ?? spoken(legend ?? one);
};
const isCalled = (one, wanted, exactly) => exactly
  ? clean(called(one)) === wanted : clean(called(one)).toLowerCase().includes(wanted.toLowerCase());
const isSeen = (one) => one.checkVisibility({ visibilityProperty: true });
const all = (within, kind, wanted, exactly) => [...within.querySelectorAll(TAGS[kind])].filter((one) =>
  (UNSEEN.includes(kind) || isSeen(one)) && (wanted === '' || isCalled(one, wanted, exactly)));
const within = inside === '' ? document : all(document, 'region', inside, false)[0];
return within ? all(within, role, name, exact) : [];
"""
"""(role, name or "", exact, name of a region or "") → the elements, in the page's order."""

PLACE = r"""
const [one] = arguments;
const shown = one.getBoundingClientRect().width > 4 ? one : (one.labels?.[0] ?? one);
shown.scrollIntoView({ block: 'center', inline: 'nearest', behavior: 'instant' });
const middle = () => {
  const box = shown.getBoundingClientRect();
  return [Math.round(box.left + box.width / 2), Math.round(box.top + box.height / 2)];
};
const before = middle();
return new Promise((tell) => requestAnimationFrame(() => requestAnimationFrame(() => {
  const [x, y] = middle();
  const top = document.elementFromPoint(x, y);
  const isFree = top !== null && (shown.contains(top) || top.closest('label')?.control === one);
  window.wasHit = false;
  const feel = ({ target }) => { window.wasHit = shown.contains(target) || target.closest('label')?.control === one; };
  addEventListener('click', feel, { once: true, capture: true });
  tell(isFree && x === before[0] && y === before[1] ? [x, y] : null);
})));
"""
"""(element) → where a finger hits it, in CSS pixels of the view, or null while it moves or something lies over it."""

WAS_HIT = "return window.wasHit !== false"
"""Whether a finger came down and up again on what PLACE was asked for, or its page is gone already."""

BOX = r"""
arguments[0].scrollIntoView({ block: 'center', behavior: 'instant' });
const { left, top, width, height } = arguments[0].getBoundingClientRect();
return [left, top, width, height];
"""

IS_SAID = "return document.body.innerText.replace(/\\s+/g, ' ').includes(arguments[0])"

STANDS = "return `${document.title} ${location.hash}\\n${document.body.innerText.slice(0, 800)}`"

STORED = """
const opening = indexedDB.open('shuntbook');
return new Promise((tell, fail) => {
  opening.onerror = () => fail(opening.error);
  opening.onsuccess = () => {
    const name = arguments[0];
    const tx = opening.result.transaction([name, 'meta']);
    const asked = tx.objectStore(name).getAll();
    const range = IDBKeyRange.bound(['page'], ['page', []]);
    const pages = name === 'entries' ? tx.objectStore('meta').getAll(range) : { result: [] };
    tx.oncomplete = () => {
      opening.result.close();
      const paged = pages.result.flatMap(({ records }) => JSON.parse(records));
      tell(JSON.parse(JSON.stringify([...asked.result, ...paged])));
    };
  };
});
"""
"""(name of a store) → what the phone's own database holds in it."""
