// Words: what may be written in a slip, each with an example that can be taken.
import { find, make } from './dom.js';

export function Words({ slip, words, say }) {
  const button = find('words'), list = find('words-list');
  button.addEventListener('click', () => {
    const open = list.hidden;
    list.hidden = !open;
    button.setAttribute('aria-expanded', String(open));
    if (open) paint();
  });

  function paint() {
    const group = (title, all) => [make('h3', {}, title), ...all.map((each) => make('div', {}, make('code', {}, each), make('span', {}, words.says[each] || ''),
      words.examples[each] ? make('button', { type: 'button', class: 'word', onclick: () => take(words.examples[each]) }, words.examples[each]) : ''))];
    list.replaceChildren(...group('Begin a line', words.statements), ...group('Said of a part', words.attributes), ...group("In a rope's way", words.path));
  }

  function take(example) {
    const text = slip.text, whole = words.statements.some((each) => example.startsWith(each));
    const at = whole ? text.length : slip.at;
    const before = whole && text && !text.endsWith('\n') ? '\n' : '';
    slip.replace({ from: at, to: at, insert: before + example + (whole ? '\n' : '') }, `${example} taken from the words`);
    slip.focus();
    say(`${example} is written.`);
  }
}
