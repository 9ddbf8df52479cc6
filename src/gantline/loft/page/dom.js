// Elements made without markup: what comes from a file is only ever text.

const SVG = 'http://www.w3.org/2000/svg';

export const find = (id) => document.getElementById(id);

// An element with properties and children. `class` and names with a dash or of ARIA are attributes; the rest are properties.
export function make(tag, given = {}, ...children) {
  return fill(document.createElement(tag), given, children);
}

export function draw(tag, given = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), given, children);
}

function fill(element, given, children) {
  for (const [name, value] of Object.entries(given)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (name === 'hidden' || name === 'disabled') element[name] = true;
    else element.setAttribute(name, value === true ? '' : String(value));
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== ''));
  return element;
}

// A word that does something. `why` says why it cannot be done now; it stays focusable and says so when it is pressed.
export function word(text, act, kind = '') {
  return make('button', { type: 'button', class: `word ${kind}`.trim(), onclick: act }, text);
}

// A word of the page that can or cannot be used now; one that cannot says why when it is pressed.
export function allow(button, why) {
  if (why) {
    button.setAttribute('aria-disabled', 'true');
    button.dataset.why = why;
  } else {
    button.removeAttribute('aria-disabled');
    delete button.dataset.why;
  }
}

// A sentence of the notation, with what it quotes in the slip's own face.
export function quoted(text) {
  return text.split('`').map((piece, n) => (n % 2 ? make('code', {}, piece) : piece));
}

// A part of a message as a sentence of its own.
export function sentence(text) {
  const whole = text.replace(/^\p{Ll}/u, (first) => first.toUpperCase());
  return /[.?!]$/.test(whole) ? whole : `${whole}.`;
}

export const unquoted = (text) => text.replace(/`/g, '');

const drawn = new WeakMap();

// Figures and formulas that the server made from a solved rig come as markup; nothing else may use this.
export function setMade(element, markup) {
  if (drawn.get(element) === markup) return false;
  drawn.set(element, markup);
  const parsed = new DOMParser().parseFromString(`<!DOCTYPE html><body>${markup}`, 'text/html');
  element.replaceChildren(...document.adoptNode(parsed.body).childNodes);
  return true;
}

export function made(tag, markup, given = {}) {
  const element = make(tag, given);
  setMade(element, markup);
  return element;
}

// Replaces children but leaves the focus where it was: on what has the same key, else on `home`.
export function renew(element, children, home) {
  const held = element.contains(document.activeElement) ? document.activeElement : null;
  element.replaceChildren(...children);
  if (!held || held.isConnected) return;
  const same = held.dataset.key && element.querySelector(`[data-key="${CSS.escape(held.dataset.key)}"]`);
  (same || home || element).focus({ preventScroll: true });
}

// One stop for Tab, arrows within: the members that match `selector` share a single tabindex 0.
export function roving(element, selector, chosen) {
  const members = () => [...element.querySelectorAll(selector)];
  const settle = (target) => {
    for (const member of members()) member.tabIndex = member === target ? 0 : -1;
  };
  element.addEventListener('focusin', (event) => {
    const member = event.target.closest(selector);
    if (member) settle(member);
  });
  element.addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const all = members(), at = all.indexOf(event.target.closest(selector));
    const steps = { ArrowDown: at + 1, ArrowRight: at + 1, ArrowUp: at - 1, ArrowLeft: at - 1, Home: 0, End: all.length - 1 };
    if (at < 0 || !(event.key in steps)) return;
    event.preventDefault();
    event.stopPropagation();
    all[Math.max(0, Math.min(all.length - 1, steps[event.key]))].focus();
  });
  return () => settle(members().find((member) => member === document.activeElement) || members().find(chosen) || members()[0]);
}
