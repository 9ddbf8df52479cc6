// The title of the rig: h1, dotted, edited where it stands.
import { find, make } from './dom.js';
import { field } from './field.js';

export function Title({ store, edit }) {
  const element = find('title');
  const button = make('button', { type: 'button', class: 'given', 'aria-label': '' });
  element.append(button);
  const found = () => store.text.match(/^([ \t]*title[ \t]+)(.*?)[ \t]*$/m);

  button.addEventListener('click', () => field({
    over: button, value: (found() || ['', '', ''])[2], label: 'Title', keep, done: () => button.focus(),
  }));

  function keep(value) {
    const said = `title ${value}`, match = found();
    if (!value || /[\r\n]/.test(value)) return { says: 'A title is one line of words', why: 'it stands at the head of the page', do: 'write at least a word.' };
    if (match) edit.change([{ from: match.index + match[1].length, to: match.index + match[1].length + match[2].length, insert: value }], said);
    else edit.change([{ from: 0, to: 0, insert: `title  ${value}\n` }], said);
    return null;
  }

  return {
    show() {
      const words = (found() || ['', '', ''])[2].replace(/\s#.*$/, '');
      button.textContent = words || 'Untitled';
      button.setAttribute('aria-label', `${words || 'Untitled'}, title, can be changed`);
    },
  };
}
