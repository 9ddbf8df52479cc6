// A field over a value: Enter keeps, Esc puts back, Tab keeps and goes on, Up and Down change the last digit.
import { make, quoted, sentence } from './dom.js';
import { nudge } from './numbers.js';

let count = 0;

// `keep(text)` gives the problem that stands against the value (its three parts), or null; a promise of it will do.
// `over` is the element that gives way to the field; `done(next)` is told whether to go on to the next given;
// null says that somebody left a value that will not do, and is elsewhere by now: the focus is theirs.
export function field({ over, value, label, keep, done, says = '' }) {
  const id = `field-${(count += 1)}`;
  const input = make('input', { class: 'field', value, 'aria-label': label, 'aria-describedby': id, autocomplete: 'off', spellcheck: 'false', maxlength: 200 });
  const told = make('p', { class: 'field-says', id, role: 'status' }, says);
  let over_ = false;
  over.hidden = true;
  over.after(input);
  (over.closest('.rules, .title') || over.parentElement).append(told);
  input.focus();
  input.select();

  function close(next = 0) {
    if (over_) return;
    over_ = true;
    for (const kind of ['pointerdown', 'keydown']) document.removeEventListener(kind, elsewhere);
    input.remove();
    told.remove();
    over.hidden = false;
    done(next);
  }

  function elsewhere(event) {
    if (event.type === 'keydown' ? event.key === 'Escape' : event.target !== input) close(null);
  }

  async function take(next) {
    if (input.value.trim() === value) { close(next); return; }
    const problem = await keep(input.value.trim());
    if (!problem) { close(next); return; }
    if (over_) return;
    input.setAttribute('aria-invalid', 'true');
    for (const kind of ['pointerdown', 'keydown']) document.addEventListener(kind, elsewhere);
    told.replaceChildren(make('b', {}, ...quoted(sentence(problem.says)), ' '), ...quoted(`${sentence(problem.why)} ${problem.do && sentence(problem.do)}`));
  }

  input.addEventListener('keydown', (event) => {
    event.stopPropagation();
    const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (by && /\d/.test(input.value)) input.value = nudge(input.value, by * (event.shiftKey ? 10 : 1));
    else if (event.key === 'Enter') take(0);
    else if (event.key === 'Escape') close(0);
    else if (event.key === 'Tab') take(event.shiftKey ? -1 : 1);
    else return;
    event.preventDefault();
  });
  input.addEventListener('blur', () => { if (!over_ && !input.hasAttribute('aria-invalid')) take(0); });
  return input;
}
