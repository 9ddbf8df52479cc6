// The title of the rig: h1, dotted, edited where it stands.
import { find, make } from './dom.js';
import { field } from './field.js';

export function Title({ store, edit }) {
  const element = find('title');
  const button = make('button', { type: 'button', class: 'given', 'aria-label': '' });
  element.append(button);
  const found = () => store.text.match(/^([ \t]*title[ \t]+)(.*?)[ \t]*$/m);

  button.addEventListener('click', () => field({
    over: button, value: (found() || ['', '', ''])[2], label: 'Title', keep: edit.title, done: (next) => { if (next !== null) button.focus(); },
  }));

  return {
    show() {
      const words = (found() || ['', '', ''])[2].replace(/\s#.*$/, '');
      button.textContent = words || 'Untitled';
      button.setAttribute('aria-label', `${words || 'Untitled'}, title, can be changed`);
    },
  };
}
