// The rules at the foot: a value each, tried by moving a pin and changed by typing over it.
import { find, make } from './dom.js';
import { field } from './field.js';
import { valueOf } from './numbers.js';
import { Rule } from './rule.js';


const ORDER = ['load', 'effort', 'moving', 'efficiency', 'raise', 'lower', 'fixed', 'gravity', 'radius', 'disc', 'inertia', 'hook', 'spacing', 'becket', 'apart', 'lead', 'stiffness', 'diameter', 'rope', 'drag'];
const WORDS = { raise: 'rise', lower: 'way down', effort: 'pull', gravity: 'gravity', efficiency: 'each wheel', lead: 'lead' };
const SHOWN = 4;

// Givens that one rule moves together: the wheels that all pass on the same share.
export function grouped(seen) {
  const kinds = new Map(seen.parts.map((part) => [part.id, part.kind])), groups = new Map();
  for (const given of seen.givens) {
    if (given.key === 'sheaves') continue;
    const key = given.key === 'efficiency' ? `efficiency ${given.number}` : given.id;
    const group = groups.get(key) || { ...given, ids: [], parts: [], all: [] };
    group.ids.push(given.id);
    group.all.push(given);
    group.parts.push(...[given.part, given.other].filter(Boolean));
    groups.set(key, group);
  }
  const place = (one) => ORDER.indexOf(ORDER.includes(one.key) ? one.key : kinds.get(one.part) || 'fixed');
  const one_efficiency = [...groups.values()].filter((one) => one.key === 'efficiency').length === 1;
  return [...groups.values()].map((one) => named(one, one_efficiency, kinds.get(one.part))).sort((a, b) => place(a) - place(b));
}

function named(one, alone, kind) {
  const [name, ...said] = one.says.split(', '), own = ['weight', 'mass'].includes(one.key) && kind !== 'rope';
  const short = WORDS[one.key] && (one.key !== 'efficiency' || alone) ? WORDS[one.key]
    : own ? one.part : one.other ? `${one.part} to ${one.other}` : `${one.key} of ${one.part}`;
  return { ...one, name: one.ids.length > 1 ? 'Efficiency of each wheel' : name, short, aloud: said.join(', ').replace(one.number, '').trim(), value: one.number ? `${one.number} ${one.unit}` : one.symbol };
}

export function Rules({ store, edit, light, writeIn }) {
  const element = find('rules'), rest = make('div', { class: 'others' }), rules = new Map();
  let all = [], up = '', signature = '';

  // `broken` is the line whose value cannot be read: it is shown as it is written, and has no rule.
  function show(seen, broken = null) {
    const next = grouped(seen);
    for (const one of next) {
      if (!broken || one.line !== broken.line || one.number) continue;
      one.unread = `${broken.text.slice(one.column - 1).match(/^[^,#]*/)[0].trim()} ?`;
      one.value = one.unread;
    }
    const sign = JSON.stringify(next.map((one) => [one.ids, one.value, one.short, one.symbol]));
    all = next;
    if (sign !== signature) { signature = sign; build(); }
    tried();
  }

  function build() {
    const held = document.activeElement?.closest('.rule')?.dataset.key;
    for (const made of rules.values()) made.end();
    rules.clear();
    if (!all.some((one) => one.id === up)) up = '';
    element.replaceChildren(make('div', { class: 'set' }, all.map(rule)), rest);
    takeUp(up);
    if (held) rules.get(held)?.input.focus({ preventScroll: true });
  }

  // The rule taken up has the whole width; the others wait as words and values. None taken up: the first few stand.
  function takeUp(id) {
    up = id;
    element.classList.toggle('up', Boolean(up));
    const shown = up ? [up] : all.slice(0, SHOWN).map((one) => one.id);
    for (const box of element.querySelectorAll('.rule')) {
      const one = all.find((each) => each.id === box.dataset.key);
      box.hidden = !shown.includes(one.id);
      box.querySelector('.what').textContent = up ? phrase(one) : one.short;
    }
    others(all.filter((one) => !shown.includes(one.id)));
  }

  function rule(one) {
    const trying = store.whatIf.get(one.id);
    const head = make('div', { class: 'rule-head' }, make('span', { class: 'named' }, letter(one), make('span', { class: 'what' })), make('span', { class: 'legend' }, 'ring: the slip, pin: what if'), given(one, trying));
    const box = make('div', { class: 'rule', 'data-key': one.id }, head);
    light.speaks(box, lit(one), one.name);
    delete box.dataset.parts;
    head.dataset.parts = one.ids.join(' ');
    head.dataset.match = 'any';
    if (!one.number) { box.append(make('p', { class: 'no-rule' }, one.unread ? 'No unit, no rule' : 'A letter: no rule. Give it a number to try others.')); return box; }
    const made = Rule(one, {
      tried: trying,
      tell: (value) => { for (const id of one.ids) store.try(id, value); },
      take: () => writeIn(one.id),
      back: () => edit.putBack(one),
      hold: () => { if (up !== one.id) takeUp(one.id); },
    });
    rules.set(one.id, made);
    box.append(made.element);
    return box;
  }

  function others(waiting) {
    const words = waiting.map((one) => make('span', { 'data-key': one.id }, letter(one), ' ',
      one.number ? make('button', { type: 'button', class: 'word link', onclick: () => { takeUp(one.id); rules.get(one.id).input.focus(); } }, one.short) : one.short,
      ' ', given(one, store.whatIf.get(one.id))));
    rest.replaceChildren(...(waiting.length ? [make('span', { class: 'first' }, 'Other rules'), ...words] : []),
      ...(up ? [make('button', { type: 'button', class: 'word bare keys', onclick: () => { const id = up; takeUp(''); rules.get(id)?.input.focus(); } }, 'All rules')] : []));
  }

  function given(one, trying) {
    const shown = make('button', { type: 'button', class: `given${trying ? ' trying' : ''}${one.unread ? ' unread' : ''}`, 'data-given': one.id, 'aria-label': aloud(one, trying) }, spaced(trying || one.value));
    shown.addEventListener('click', () => open(one, shown));
    shown.addEventListener('keydown', (event) => { if (event.key === 'F2') open(one, shown); });
    return shown;
  }

  function open(one, shown) {
    field({
      over: shown, value: trying(one) || (one.unread ? one.unread.slice(0, -2) : one.value), label: one.name,
      says: one.symbol ? `Enter keeps, Esc puts back. ${one.symbol} alone leaves it a letter.` : 'Enter keeps, Esc puts back.',
      keep: (value) => edit.value(one, value),
      done: (next) => { if (next) step(one.id, next); else if (next !== null) element.querySelector(`[data-given="${CSS.escape(one.id)}"]`)?.focus(); },
    });
  }

  function trying(one) { return store.whatIf.get(one.id); }

  function step(id, by) {
    const ids = [...element.querySelectorAll('[data-given]')], at = ids.findIndex((each) => each.dataset.given === id);
    (ids[at + by] || ids[at])?.click();
  }

  // Values that are only tried: no rule is rebuilt under the pointer.
  function tried() {
    for (const shown of element.querySelectorAll('[data-given]')) {
      const one = all.find((each) => each.id === shown.dataset.given), value = one && trying(one);
      if (!one) continue;
      shown.textContent = spaced(value || one.value);
      shown.setAttribute('aria-label', aloud(one, value));
      shown.classList.toggle('trying', Boolean(value));
      rules.get(one.id)?.at(value ? valueOf(value.split(' ')[0]) : undefined);
    }
  }

  return { show, rest: () => takeUp(''), get all() { return all; } };
}

// What is written stands in the name too, for those who speak what they see.
function aloud(one, value) { return `${one.says}, can be changed: ${spaced(value || one.value)}`; }

function lit(one) { return [...one.ids, ...one.parts, ...(['raise', 'lower', 'effort'].includes(one.key) ? ['hand'] : [])]; }

function phrase(one) { return one.short.startsWith('weight of') ? one.short : { weight: `${one.part} weighs`, mass: `${one.part} has a mass of`, efficiency: `${one.short} passes on` }[one.key] || one.short; }

function spaced(value) { return value.replace(/ /g, '\u00a0'); }

function letter(one) {
  const [base, low] = one.symbol.split(/_|(?<=^[A-Za-z]+)(?=\d)/);
  return make('span', { class: 'letter' }, base || '', low ? make('sub', {}, low) : '');
}

