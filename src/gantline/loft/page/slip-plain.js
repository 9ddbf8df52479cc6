// The slip as a plain text field: what a source checkout without the editor's bundle shows.
import { make } from './dom.js';
import { difference } from './store.js';

export function PlainSlip(element, hear) {
  const area = make('textarea', { 'aria-label': 'Slip: the rig in words', spellcheck: 'false', autocapitalize: 'off', rows: 12 });
  element.append(area);
  element.closest('.slip').classList.add('plain');
  area.addEventListener('input', () => hear.typed(area.value));
  area.addEventListener('focus', hear.entered);
  area.addEventListener('blur', hear.left);
  area.addEventListener('keyup', () => hear.cursor(area.selectionStart));
  area.addEventListener('keydown', (event) => {
    const acts = { F8: () => hear.problem(event.shiftKey ? -1 : 1), Enter: event.altKey ? hear.remedy : event.ctrlKey ? hear.answer : null };
    if (!acts[event.key]) return;
    event.preventDefault();
    acts[event.key]();
  });
  const nothing = () => {};
  return {
    plain: true,
    get text() { return area.value; },
    set(text) {
      const { from, to, insert } = difference(area.value, text);
      if (from !== to || insert) area.setRangeText(insert, from, to, 'preserve');
    },
    replace({ from, to, insert }, words) {
      area.setRangeText(insert, from, to, 'end');
      hear.typed(area.value);
      hear.named(words);
    },
    problems: nothing, card: nothing, light: nothing, tries: nothing, ghost: nothing,
    below: () => 0,
    go(at, focus = true) {
      if (focus) area.focus();
      area.setSelectionRange(at, at);
    },
    shown: () => true,
    get at() { return area.selectionStart; },
    get focused() { return document.activeElement === area; },
    focus() { area.focus(); },
  };
}
