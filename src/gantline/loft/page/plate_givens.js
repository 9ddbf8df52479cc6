// Dotted numbers on the plate, and the field that opens over one.
import { make } from './dom.js';
import { field } from './field.js';
import { offset } from './store.js';

const VIEWS = new Set(['bare', 'labelled', 'numbered']);

// The dotted numbers of a figure: over a load's own letters, and beside a block that has a weight. `tried` are what-if values by id.
export function dotted(places, svg, seen, found, open, tried) {
  if (!VIEWS.has(svg.dataset.view)) return [];
  const shown = [];
  for (const given of seen.givens.filter((one) => one.key === 'weight' || one.key === 'mass')) {
    const box = found.get(given.part), kind = seen.parts.find((part) => part.id === given.part)?.kind;
    if (!box || kind === 'fixed') continue;
    const words = [...svg.querySelectorAll(`text[data-part="${CSS.escape(given.part)}"]`)].at(-1);
    if (kind === 'load' && words) shown.push(over(given, places.local(words.getBoundingClientRect()), open));
    else if (kind === 'moving' && given.number) shown.push(beside(given, box, places, open, tried.get(given.id)));
  }
  return shown;
}

const opener = (given, open, kind, ...inside) => make('button', {
  type: 'button', class: `dotted ${kind}`, tabindex: -1, 'data-given': given.id, onclick: () => open(given.id),
}, make('span', { class: 'unseen' }, `${given.says}, can be changed`), ...inside);

function over(given, { left, top, width, height }, open) {
  const button = opener(given, open, 'over'), high = Math.max(24, height + 4); // its dots stand close under the words
  Object.assign(button.style, { left: `${left - 4}px`, top: `${top + height + 2 - high}px`, width: `${width + 8}px`, height: `${high}px` });
  return button;
}

function beside(given, box, places, open, trying) {
  const value = trying || `${given.number} ${given.unit}`;
  const sign = make('span', { 'aria-hidden': 'true' }, make('i', {}, given.symbol[0]), make('sub', {}, given.symbol.slice(1).replace('_', '')), ` = ${value.replace(' ', '\u00a0')}`);
  const button = opener(given, open, trying ? 'beside trying' : 'beside', sign);
  const wide = 34 + 8.4 * (value.length - 1 + given.symbol.length), high = 28, y = box.top + box.height / 2 - high / 2;
  const spots = [0, 24, -24, 48].flatMap((by) => [[box.left + box.width + 8, y + by], [box.left - wide - 8, y + by]]);
  const at = places.choose(wide, high, spots);
  Object.assign(button.style, { left: `${at.left}px`, top: `${at.top}px` });
  return button;
}

// What stands in the text for a given, empty where it is not given yet.
export function written(store, seen, target) {
  const given = seen.givens.find((one) => one.id === target);
  if (!given) return '';
  return store.text.slice(offset(store.text, given.line, given.column), offset(store.text, given.line, given.column + given.length));
}

// A field at a part. `keep(value)` as for any field; `done(next)` when it has closed.
export function open(home, { at, value, label, keep, done }) {
  const over_ = make('span', { class: 'unseen' });
  const place = make('div', { class: 'plate-field' }, over_);
  home.append(place);
  const input = field({
    over: over_, value, label, keep, says: 'Enter keeps, Esc puts back.',
    done: (next) => { place.remove(); if (next !== null) done(next); },
  });
  const left = at.left + at.width / 2 - place.offsetWidth / 2, top = at.top + at.height / 2 - 17;
  place.style.left = `${Math.max(0, Math.min(left, home.clientWidth - place.offsetWidth))}px`;
  place.style.top = `${Math.max(0, Math.min(top, home.clientHeight - 60))}px`;
  return input;
}
