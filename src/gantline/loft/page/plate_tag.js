// The tag of a part: what can be done with it, the same words in the same order; what cannot be done says why.
import { make } from './dom.js';

// `act(verb)` does a line; `closed(back)` is told when the tag goes, `back` whether the focus should return.
export function Tag(home, { of, head, verbs }, at, { act, closed }) {
  const items = verbs.map((verb, n) => make('li', { role: 'none' }, make('button', {
    type: 'button', role: 'menuitem', class: 'verb', tabindex: n ? -1 : 0, 'aria-disabled': verb.why ? 'true' : null, onclick: () => press(verb),
  }, verb.words, verb.why ? make('span', { class: 'why' }, verb.why) : '')));
  const list = make('ul', { role: 'menu', 'aria-label': of ? `${of}, ${head}` : head }, items);
  const name = of.startsWith('make:') ? [make('b', {}, head)] : [make('b', {}, of), `, ${head}`];
  const element = make('div', { class: 'tag' }, make('p', { class: 'tag-head' }, name), list);
  let open = true;
  home.append(element);
  put(home, element, at);

  function press(verb) {
    if (verb.why) return;
    close(true);
    act(verb);
  }

  function close(back) {
    if (!open) return;
    open = false;
    element.remove();
    closed(back);
  }

  element.addEventListener('keydown', (event) => {
    const buttons = [...list.querySelectorAll('button')], now = buttons.indexOf(document.activeElement);
    const to = { ArrowDown: now + 1, ArrowUp: now - 1, Home: 0, End: buttons.length - 1 }[event.key];
    if (event.key === 'Escape' || event.key === 'Tab') close(true);
    else if (to !== undefined) buttons[(to + buttons.length) % buttons.length].focus();
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
  element.addEventListener('focusout', (event) => { if (open && !element.contains(event.relatedTarget)) close(false); });
  list.querySelector('button')?.focus();
  return { close, get open() { return open; } };
}

// Beside its part, inside the plate, where it covers least of it.
function put(home, element, { left, top, width }) {
  const wide = element.offsetWidth, most = Math.max(0, home.clientWidth - wide), right = left + width;
  const hides = (at) => Math.max(0, Math.min(at + wide, right) - Math.max(at, left));
  const places = [right + 10, left - wide - 10, most, 0].map((at) => Math.max(0, Math.min(most, at)));
  const best = places.reduce((one, other) => (hides(other) < hides(one) ? other : one));
  element.style.left = `${best}px`;
  element.style.top = `${Math.max(0, Math.min(top, home.clientHeight - element.offsetHeight))}px`;
}
