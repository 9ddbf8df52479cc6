// Help on the shelf: the keys, and what was spoken last.
import { find, make } from './dom.js';

const KEYS = [
  ['Anywhere', [['Ctrl Z, Ctrl Shift Z', 'undo, do again'], ['Ctrl S', 'keep now'], ['Ctrl Enter', 'say the answer'], ['Esc', 'the innermost first: field, tag, rope, what is lit']]],
  ['On the plate', [['Arrows', 'the nearest part that way'], ['PgDn, PgUp', 'along the rope'], ['Home, End', 'first fixed part, hand'], ['Enter', 'what can be done with a part'], ['F2', 'its number'], ['Space', 'keep it lit'], ['Delete', 'take it away']]],
  ['While reeving', [['Arrows', 'next and previous place'], ['Enter', 'take the rope there'], ['Backspace', 'take one back'], ['Esc', 'leave the rope lying']]],
  ['On a rule', [['Arrows', 'one graduation; with Shift a tenth of it'], ['PgUp, PgDn', 'ten'], ['Enter', 'write it in'], ['Esc', 'put it back']]],
  ['In the slip', [['Ctrl Space', 'the words that fit'], ['F8, Shift F8', 'next, previous problem'], ['Alt Enter', 'take its first remedy'], ['Tab', 'on to what comes next']]],
  ['In the account', [['Up, Down', 'the steps'], ['Enter', 'open, close'], ['Ctrl Right, Ctrl Left', 'on, back']]],
];

export function Help({ spoken }) {
  const help = find('help'), button = find('help-open'), first = find('first-time'), hide = find('hide-first');
  const hidden = localStorage.getItem('gantline first') === 'hidden';
  first.hidden = hide.hidden = hidden;
  hide.addEventListener('click', () => {
    localStorage.setItem('gantline first', 'hidden');
    first.hidden = hide.hidden = true;
    find('teach').focus();
  });
  button.addEventListener('click', () => {
    help.hidden = !help.hidden;
    button.setAttribute('aria-expanded', String(!help.hidden));
    if (!help.hidden) paint();
  });

  function paint() {
    const groups = KEYS.map(([where, keys]) => make('div', {}, make('h3', {}, where),
      make('dl', {}, keys.flatMap(([key, does]) => [make('dt', {}, make('kbd', {}, key)), make('dd', {}, does)]))));
    help.replaceChildren(make('h2', { id: 'help-head' }, 'Help'), make('div', { class: 'help-keys' }, groups),
      make('h3', {}, 'Spoken lines'), spoken.length ? make('div', { class: 'spoken', tabindex: 0, role: 'group', 'aria-label': 'Spoken lines' }, spoken.slice(-40).map((said) => make('p', {}, said))) : make('p', { class: 'soft' }, 'Nothing was said yet.'),
      make('p', { class: 'soft' }, 'Nothing here rates a rope, a block or a beam. Before real things are lifted: local rules, the makers’ ratings, and a competent person. Never lift people.'));
  }
}
