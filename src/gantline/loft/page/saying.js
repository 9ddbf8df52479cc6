// A sentence that is written over where it stands. Its live numbers are words of their own: underlined, shown as they
// are read or spoken, and taken out whole or not at all.
import { make } from './dom.js';

const SLOT = /(\{[^{}]+\})/;

// The sentence as it is read, with no line broken between a number and its unit.
export function bound({ says, numbers }) {
  const amounts = Object.values(numbers).map(([read]) => read).filter((read) => /^\S+ \S+$/.test(read));
  return amounts.reduce((text, each) => text.replaceAll(each, each.replace(' ', '\u00a0')), says);
}

// `say` has its numbers in braces; `numbers` says how each is read (0) and spoken (1); `as` chooses. `keep` and `leave`
// are what Enter and Esc do.
export function Sentence({ say, numbers, as, label, keep, leave }) {
  const element = make('div', { class: 'say-edit', role: 'textbox', 'aria-multiline': 'true', 'aria-label': label, tabindex: 0, spellcheck: 'true' });
  try { element.contentEditable = 'plaintext-only'; } catch { element.contentEditable = 'true'; }
  element.append(...say.split(SLOT).filter(Boolean).map((piece) => {
    const known = SLOT.test(piece) && numbers[piece.slice(1, -1)];
    return known ? make('span', { class: 'slot', contenteditable: 'false', 'data-slot': piece }, known[as]) : piece;
  }));
  element.addEventListener('keydown', (event) => {
    if (event.key !== 'Enter' && event.key !== 'Escape') return;
    event.preventDefault();
    event.stopPropagation();
    (event.key === 'Enter' ? keep : leave)();
  });
  element.addEventListener('paste', (event) => {
    event.preventDefault();
    document.execCommand('insertText', false, event.clipboardData.getData('text/plain').replace(/\s+/g, ' '));
  });
  return { element, words: () => [...element.childNodes].map(written).join('').replace(/\s+/g, ' ').trim() };
}

function written(node) {
  if (node.nodeType === Node.TEXT_NODE) return node.data;
  return node.dataset?.slot ?? ([...node.childNodes].map(written).join('') || ' ');
}

// The caret behind the last word.
export function toEnd(element) {
  element.focus();
  getSelection().selectAllChildren(element);
  getSelection().collapseToEnd();
}
