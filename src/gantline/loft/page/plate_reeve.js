// Leading a rope by pointing or by keys: places offered one contact after the other, each one step of Undo.
import { make, word } from './dom.js';
import { Places } from './plate_boxes.js';
import { laidIn, rings, toPointer } from './plate_rope.js';
import { ask } from './server.js';
import { offset } from './store.js';

const NARROW = 560; // px of the plate below which the places stand under the figure
const KEYS = new Set(['ArrowRight', 'ArrowDown', 'ArrowLeft', 'ArrowUp', 'Home', 'End', 'Enter', ' ', 'Backspace', 'Delete', 'Escape']);
const COLUMN = 216; // px at the right for what ends a rope

export function Reeving({ sheet, home, list, say, words, write, store, ghost, light, described, ended, left }) {
  const below = make('div', { class: 'reeving-below', hidden: true });
  const ends = make('p', { class: 'ends-head' }, 'or end the rope:');
  const more = word('', () => { state.more = true; lay(); focus(shown().length - 1); }, 'link more-places');
  let state = null, rest = [], round = 0, queue = Promise.resolve(), waiting = 0;

  const shown = () => state.offers.places.filter((place) => state.more || place.group !== 'more');
  const option = (id) => list.querySelector(`[data-place="${CSS.escape(id)}"]`);
  const current = () => shown()[state.index];

  async function begin(rope = '', start = '', old = []) {
    state = { rope, offers: null, index: 0, more: false, pointed: null, laid: state?.laid || [] };
    rest = old;
    home.classList.add('reeving');
    document.body.classList.add('reeving');
    home.parentElement.after(below);
    home.tabIndex = -1;
    home.focus({ preventScroll: true });
    await soon(() => (start ? take(start) : offer(rope)));
  }

  // One thing after the other: keys pressed while the loft still answers are not lost.
  function soon(what) {
    waiting += 1;
    home.setAttribute('aria-busy', 'true');
    queue = queue.then(() => (state ? what() : null)).catch((error) => say(error.message)).then(() => {
      waiting -= 1;
      if (!waiting) home.removeAttribute('aria-busy');
    });
    return queue;
  }

  // `quiet` where something has just been said of it.
  async function offer(rope, quiet = false) {
    const turn = (round += 1), text = store.text;
    const { offers } = await ask('offers', { text, rope });
    if (turn !== round || !state) return;
    if (!offers) { finish(); left(); return; }
    const wheel = ({ at }) => at?.r && `${at.x} ${at.y}`;
    for (const place of offers.places) {
      place.quiet = offers.led.length > 0;
      place.half = Boolean(wheel(place)) && offers.places.filter((other) => wheel(other) === wheel(place)).length > 1;
    }
    Object.assign(state, { rope: offers.rope, offers, index: 0, more: false, pointed: null, text });
    lay();
    const [first, ...others] = offers.asks.split(/(?<=\.) /);
    if (!quiet) say(offers.led.length ? [first, others.join(' ')] : [`Reeving ${offers.rope}.`, `${first} ${counted(offers)}`]);
    words([...(offers.led.length ? [['Take back', () => soon(back)]] : []), ['Leave it here', leave]]);
    focus(0);
  }

  const counted = ({ places }) => `${places.filter((place) => place.group !== 'more').length} places.`;

  // -- the sheet ---------------------------------------------------------------------------------------------------

  function lay() {
    const { offers } = state, held = list.contains(document.activeElement);
    if (!offers) return;
    sheet.show(offers.svg);
    described(offers.alt);
    const narrow = !sheet.svg || home.clientWidth < NARROW;
    home.classList.toggle('narrow', narrow);
    sheet.frame(shown().map((place) => place.at).filter(Boolean));
    const options = shown().map((place, n) => make('li', {
      role: 'option', id: `place-${n}`, class: 'place', tabindex: -1, 'data-place': place.id, 'data-group': place.group, 'aria-selected': 'false',
      'aria-label': [place.says, place.why && place.why.replace(/\.$/, ''), place.pull && `${place.pull} if it is hauled there`].filter(Boolean).join(', '),
    }, place.tag, place.why && state.more ? make('span', { class: 'why' }, place.why) : ''));
    list.setAttribute('aria-label', `Places for rope ${offers.rope}, ${shown().length}`);
    list.replaceChildren(...options);
    const hidden = offers.places.length - shown().length;
    more.textContent = `more places: ${hidden}`;
    for (const element of [ends, more]) element.remove();
    if (hidden) home.append(more);
    if (narrow) list.after(more); else put(hidden);
    sheet.settled();
    if (held) focus(state.index); else paint();
  }

  // Tags of wheels beside their rings, tags that end the rope in a column at the right.
  function put(hidden) {
    const places = new Places(home, sheet.svg), column = home.clientWidth - COLUMN;
    const start = !state.offers.led.length, inColumn = ({ group, at }) => !at || (!start && /hand|fast|more/.test(group)) || group === 'more';
    places.room.width = column - 6;
    const scale = sheet.over.getScreenCTM().a;
    for (const place of shown().filter((one) => one.at)) {
      const [x, y] = onPage(place.at), r = (place.at.r + 12) * Math.abs(scale);
      places.keepOff({ left: x - r, top: y - r, width: 2 * r, height: 2 * r });
      const rim = place.at.r * Math.abs(scale), hang = 56 * Math.abs(scale);  // where the rope would hang on
      if (rim) places.keepOff({ left: x - rim - 6, top: place.at.side === 'over' ? y : y - rim - hang, width: 2 * rim + 12, height: rim + hang });
    }
    for (const place of shown().filter((one) => !inColumn(one))) set(option(place.id), beside(places, option(place.id), place, scale));
    const last = shown().filter(inColumn), rows = last.map((place) => option(place.id));
    for (const row of rows) row.style.maxWidth = `${COLUMN - 8}px`;
    const high = rows.reduce((sum, row) => sum + row.offsetHeight + 8, (rows.length && !start ? 32 : 0) + (hidden ? 36 : 0));
    let top = Math.max(0, Math.min(home.clientHeight * 0.42, home.clientHeight - high));
    if (rows.length && !start) { home.append(ends); set(ends, { left: column, top }); top += 32; }
    for (const row of rows) { set(row, { left: column, top }); top += row.offsetHeight + 8; }
    if (hidden) set(more, { left: column, top: top + 4 });
  }

  function onPage({ x, y }) {
    const at = new DOMPoint(x, y).matrixTransform(sheet.over.getScreenCTM()), origin = home.getBoundingClientRect();
    return [at.x - origin.left, at.y - origin.top];
  }

  function beside(places, element, place, scale) {
    const [x, y] = onPage(place.at), wide = element.offsetWidth, high = element.offsetHeight, r = ((place.at.r || 0) + 18) * Math.abs(scale);
    const above = [[x - wide / 2, y - r - high], [x + r * 0.5, y - r - high], [x - wide - r * 0.5, y - r - high]];
    const under = [[x - wide / 2, y + r], [x + r * 0.5, y + r], [x - wide - r * 0.5, y + r]];
    const aside = [[x + r + 2, y - high / 2], [x - wide - r - 2, y - high / 2]];
    const order = place.at.side === 'over' ? [...above, ...aside, ...under] : place.at.side === 'under' ? [...under, ...aside, ...above] : [...aside, ...above, ...under];
    return places.choose(wide, high, [...order, ...order.map(([left, top]) => [left, top + (place.at.side === 'over' ? -34 : 34)])]);
  }

  function set(element, { left, top }) { Object.assign(element.style, { left: `${left}px`, top: `${top}px` }); }

  // Rings, the rope laid in to what is pointed at, the slip's growing words, and the list below.
  function paint(point = null) {
    const { offers } = state, now = state.pointed || current(), focused = list.contains(document.activeElement) ? current() : null;
    const lay_ = layOf(offers.rope);
    const marks = shown().flatMap((place) => rings(place, place === state.pointed ? 'pointed' : place === focused ? 'focus' : 'offered'));
    const rope = point && !state.pointed ? toPointer(offers.end, point, lay_) : now?.at ? laidIn(offers.end, now, lay_) : [];
    sheet.over.replaceChildren(...rope, ...marks);
    for (const each of list.children) each.classList.toggle('pointed', Boolean(state.pointed) && each.dataset.place === state.pointed.id);
    if (now) ghost(offset(store.text, offers.line, offers.column), now.words);
    tell(now);
  }

  function layOf(rope) {
    const strand = sheet.svg?.querySelector(`[data-part="${CSS.escape(rope)}"][class^="rope"]`);
    return strand ? Number(strand.getAttribute('class').match(/\d/)[0]) : 0;
  }

  function tell(now) {
    const { led, why, going } = state.offers;
    const so = led.map((one, n) => make('li', {}, make('span', { class: 'number' }, String(n + 1)), ` ${one.says}`));
    if (now) so.push(make('li', { class: 'coming' }, make('span', { class: 'number' }, String(led.length + 1)), ' ', make('span', { class: 'lit' }, /^(over|under|hand)/.test(now.id) ? now.id : `made fast to ${now.id}`), make('span', { class: 'soft' }, ' click, or Enter')));
    const pull = now?.pull ? [make('p', { class: 'pull' }, now.group === 'hand' ? 'Hauled here: ' : `Hauled ${going === 'up' ? 'down' : 'up'} from there: `, make('b', {}, now.pull))] : [];
    below.replaceChildren(
      make('div', {}, make('h2', {}, `The rope so far: ${state.rope}`), make('ol', { class: so.length > 4 ? 'many' : null }, so), pull),
      make('div', {}, make('h2', {}, 'Why these and not others'), make('p', {}, now?.why || why), make('p', { class: 'soft' }, make('kbd', {}, 'Backspace'), ' takes one back, ', make('kbd', {}, 'Esc'), ' leaves it lying')),
    );
    below.hidden = false;
  }

  // -- what is done ------------------------------------------------------------------------------------------------

  async function take(id) {
    const before = store.text, rope = state.offers ? state.rope : '', contacts = (state.offers?.led.length || 0) + 1;
    const done = await ask('edit', { text: before, action: { do: 'take', rope: state.rope, place: id, rest } });
    if (!state || store.text !== before) return;
    if (done.refused) { say(done.refused); if (!state.offers) await offer(rope); return; }
    rest = [];
    state.laid.push({ before, after: done.text });
    if (done.ended) { finish(); ended(done); write(done, earlier(done.rope || rope, `${done.rope || rope} rove: ${contacts} contacts`)); return; }
    state.rope = done.rope;
    write(done, earlier(done.rope, `${done.rope} led as far as ${done.words}`));
    await offer(done.rope);
  }

  // An unbroken reeving is one entry in *Earlier*, however many contacts it has.
  const earlier = (rope, kept) => ({ group: `reeving ${rope}`, kept });

  async function back() {
    const last = state.laid.pop(), rope = state.rope;
    if (!state.offers.led.length) { say('Nothing to take back.'); return; }
    const told = `Taken back: ${state.offers.led.at(-1).says}.`;
    const text = last && last.after === store.text ? last.before : (await ask('edit', { text: store.text, action: { do: 'back', rope } })).text;
    write({ text, words: told.slice(0, -1), says: told }, earlier(rope, told.slice(0, -1)));
    await offer(rope, true);
    say(['Taken back:', `${told.slice(12)} ${state.offers ? counted(state.offers) : ''}`]);
  }

  function leave() {
    const { led, rope } = state.offers || { led: [], rope: '' };
    finish();
    left(led.length ? `${rope} left lying after ${led.at(-1).says}.` : 'No rope in hand.', led.length ? rope : '');
  }

  function finish() {
    state = null;
    home.classList.remove('reeving', 'narrow');
    document.body.classList.remove('reeving');
    for (const element of [below, ends, more]) element.remove();
    sheet.over.replaceChildren();
    ghost(0, '');
    words([]);
  }

  function focus(n) {
    state.index = Math.max(0, Math.min(shown().length - 1, n));
    [...list.children].forEach((each, at) => {
      each.tabIndex = at === state.index ? 0 : -1;
      each.setAttribute('aria-selected', String(at === state.index));
    });
    list.children[state.index]?.focus({ preventScroll: true });
    paint();
  }

  const byId = (id) => shown().find((place) => place.id === id) || null;

  function pointed(place) {
    if (!state?.offers || place === state.pointed) return;
    state.pointed = place;
    light(place?.at?.of ? [place.contactOf || place.at.of] : null);
    paint();
  }

  list.addEventListener('focusin', () => { if (state?.offers) paint(); });
  list.addEventListener('focusout', () => { if (state?.offers) requestAnimationFrame(() => { if (state?.offers) paint(); }); });
  home.addEventListener('pointermove', (event) => {
    if (!state?.offers) return;
    const over = event.target.closest('[data-place]');
    if (over) pointed(byId(over.dataset.place)); else { state.pointed = null; paint(sheet.point(event)); }
  });
  home.addEventListener('pointerleave', () => { if (state?.offers) { state.pointed = null; paint(); } });
  // Taken where the pointer is let go, so the end may be dragged or clicked; what lies there is looked up anew, for the
  // rings are drawn again at every move. A click without a pointer comes from a reader's own means.
  home.addEventListener('pointerup', (event) => {
    if (!state?.offers || event.button) return;
    const under = document.elementFromPoint(event.clientX, event.clientY);
    const place = under?.closest('[data-place]'), mark = under?.closest('[data-part]');
    if (place) soon(() => take(place.dataset.place)); else if (mark) refuse(mark.dataset.sheave || mark.dataset.part);
  });
  list.addEventListener('click', (event) => {
    const place = event.detail === 0 && event.target.closest('[data-place]');
    if (place && state?.offers) soon(() => take(place.dataset.place));
  });

  // A click beside the places: on the last contact it takes that back, on anything else it says why not.
  function refuse(id) {
    const last = state.offers.led.at(-1)?.id.replace(/^(over|under) /, '');
    const why = state.offers.closed.find((one) => one.id === id)?.why;
    if (id === last) soon(back); else if (why) say(why);
  }

  function pressed(key) {
    if (!state.offers) return null;
    const n = state.index, to = { ArrowRight: n + 1, ArrowDown: n + 1, ArrowLeft: n - 1, ArrowUp: n - 1, Home: 0, End: shown().length - 1 }[key];
    if (to !== undefined) { state.pointed = null; return focus(to); }
    if (key === 'Enter' || key === ' ') return take(current().id);
    return key === 'Escape' ? leave() : back();
  }

  return {
    begin, leave, lay,
    stop() { if (state) finish(); },
    get active() { return Boolean(state); },
    // The words were changed by another hand, or a step was undone: the places are asked for anew.
    changed() { if (state?.offers && state.text !== store.text && !waiting) soon(() => offer(state.rope, true)); },
    key(event) {
      if (!KEYS.has(event.key)) return false;
      soon(() => pressed(event.key));
      return true;
    },
  };
}
