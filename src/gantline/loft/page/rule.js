// One drafting rule: graduations, a house-shaped pin, an open ring where the slip's value stands.
import { draw, make } from './dom.js';
import { labels, scale, shorten, valueOf } from './numbers.js';

const BASE = 24, SIDE = 7, DIGIT = 6.8; // px
const PIN = 'M-7 -19h14v11.5l-7 7.5l-7 -7.5z', RING = 'M-11 -23h22v17l-11 11l-11 -11z';

// `given` is the first of the givens it moves; `tell` hears each value (with its unit), `take` and `back` the two ends.
export function Rule(given, { tried, tell, take, back, hold }) {
  const from = valueOf(given.number), measure = scale(from, given.kind, given.key === 'becket');
  let value = tried === undefined ? from : parseFloat(tried), wide = 0;
  const input = make('input', { type: 'range', min: measure.low, max: measure.high, step: 'any', value, 'aria-label': given.name });
  const art = draw('svg', { 'aria-hidden': 'true' });
  const track = make('div', { class: 'track' }, input, art);

  function across(at) { return SIDE + (wide - 2 * SIDE) * (Math.min(measure.high, at) - measure.low) / (measure.high - measure.low); }

  function paint() {
    if (!wide) return; // it is measured when it is laid out, and painted then
    const found = labels(measure, wide), many = wide > 400;
    const every = many ? measure.grade : (measure.high - measure.low) / 10;
    const line = (x, up, kind) => draw('line', { class: kind, x1: x, x2: x, y1: BASE, y2: BASE - up });
    const ticks = [];
    for (let at = measure.low; at <= measure.high + every * 1e-6; at += every) ticks.push(line(across(at), 4, 'tick'));
    const trying = value !== from;
    track.classList.toggle('trying', trying);
    art.replaceChildren(
      ...ticks, ...found.map((at) => line(across(at), 8, 'tick')),
      draw('line', { class: 'base', x1: 0, x2: wide, y1: BASE, y2: BASE }),
      ...(trying ? [draw('line', { class: 'between', x1: across(from), x2: across(value), y1: BASE, y2: BASE }), draw('circle', { class: 'from', cx: across(from), cy: BASE, r: 4.5 })] : []),
      ...written(found),
      draw('path', { class: 'pin', d: PIN, transform: `translate(${across(value)} ${BASE})` }),
      draw('path', { class: 'ring', d: RING, transform: `translate(${across(value)} ${BASE})` }),
    );
    const shown = `${shorten(value, measure.fine)} ${given.aloud}`;
    input.setAttribute('aria-valuetext', trying ? `${shown}, what if; slip says ${given.number}` : shown);
  }

  // The numbers under it: the ends keep inside, and what would touch another is left out.
  function written(found) {
    let free = 0;
    const last = found.length - 1, texts = found.map((at) => shorten(at, (found[1] - found[0]) / 100));
    const room = wide - texts[last].length * DIGIT - DIGIT;
    return texts.flatMap((text, n) => {
      const half = text.length * DIGIT / 2, x = Math.max(half, Math.min(wide - half, across(found[n])));
      if (n && n < last && (x - half < free || x + half > room)) return [];
      free = x + half + DIGIT;
      return [draw('text', { x, y: BASE + 15 }, text)];
    });
  }

  function set(next, step) {
    const kept = Math.max(measure.low, Math.min(measure.high, next));
    value = step ? Number(shorten(Math.round(kept / step) * step, step)) : kept;
    if (measure.low === 0 && value === 0 && given.key !== 'raise') value = Number(shorten(measure.fine, measure.fine));
    input.value = value;
    paint();
    tell(value === from ? null : `${shorten(value, measure.fine)}${given.unit === '%' ? ' %' : ` ${given.unit}`}`);
  }

  function keys(event) {
    const grade = event.shiftKey ? measure.fine : measure.grade;
    const snapped = Math.round(value / grade) * grade, off = Math.abs(snapped - value) > grade * 1e-6;
    const up = off && snapped > value ? snapped : snapped + grade, down = off && snapped < value ? snapped : snapped - grade;
    const moves = {
      ArrowRight: up, ArrowUp: up, ArrowLeft: down, ArrowDown: down, PageUp: value + 10 * measure.grade,
      PageDown: value - 10 * measure.grade, Home: measure.low, End: measure.high,
    };
    if (event.key === 'Enter') take();
    else if (event.key === 'Escape' && value !== from) { value = from; input.value = from; paint(); back(); event.stopPropagation(); }
    else if (event.key in moves) { set(moves[event.key], measure.fine); hold(); }
    else return;
    event.preventDefault();
  }

  input.addEventListener('keydown', keys);
  input.addEventListener('input', () => set(Number(input.value), measure.grade / (measure.grade > measure.fine * 4 ? 4 : 1)));
  input.addEventListener('change', hold); // a pin let go: while it is dragged, its rule keeps its width
  const sized = new ResizeObserver(([entry]) => { wide = entry.contentRect.width; paint(); });
  sized.observe(track);
  // The pin where a value tried elsewhere says, or back at the slip's own.
  function at(next = from) {
    if (value === next) return;
    value = next;
    input.value = next;
    paint();
  }
  return { element: track, input, at, end() { sized.disconnect(); } };
}
