// The margin: what can be made, the views of the figure, and the way the wheels are taken.
import { allow, find, make, renew, roving } from './dom.js';

export const VIEWS = [
  ['bare', 'Bare'], ['labelled', 'Labelled'], ['numbered', 'Numbered'], ['cut', 'Cut'], ['free-body', 'Free bodies'],
  ['displacement', 'Displacement'], ['tensions', 'Tensions'], ['motion', 'Motion'], ['as-built', 'As built'], ['tried', 'Tried'],
];
const WAYS = [['ideal', 'Ideal'], ['raising', 'Raising'], ['lowering', 'Lowering']];
const MAKES = [['reeve', 'Reeve a rope'], ['addBlock', 'Add a block'], ['addSheave', 'Add a sheave'], ['hangLoad', 'Hang a load'], ['mirror', 'Mirror the plate']];

// `act` does what is made, `look` changes view or way, `say` gives the reason of what cannot be.
export function Margin({ act, look, say }) {
  const lists = {
    make: list('make', MAKES, 'button', (row) => act(row.dataset.key)),
    show: list('show', VIEWS, 'radio', (row) => look({ view: row.dataset.key, step: null })),
    wheels: list('wheels', WAYS, 'radio', (row) => look({ way: row.dataset.key })),
  };

  function list(id, rows, role, choose) {
    const element = find(id);
    const settle = roving(element, '.row', (row) => row.getAttribute('aria-checked') === 'true');
    const pick = (row) => (row.dataset.why ? say(row.dataset.why) : choose(row));
    const all = rows.map(([key, name]) => make('button', {
      type: 'button', class: 'row', role: role === 'radio' ? 'radio' : null, 'data-key': key, tabindex: -1,
      'aria-checked': role === 'radio' ? 'false' : null, onclick: (event) => pick(event.currentTarget),
    }, make('span', { class: 'name' }, name), make('span', { class: 'beside' })));
    element.replaceChildren(...all);
    settle();
    return { all, settle };
  }

  function choose({ all, settle }, key) {
    for (const row of all) row.setAttribute('aria-checked', String(row.dataset.key === key));
    settle();
  }

  return {
    view(key) { choose(lists.show, key); },
    // Reasons why views cannot be drawn, by view.
    views(reasons) { for (const row of lists.show.all) allow(row, reasons[row.dataset.key] || ''); },
    way(key) { choose(lists.wheels, key); },
    wheels(found, status, reason = '') {
      const by = new Map(found.map((each) => [each.way, each.says]));
      for (const row of lists.wheels.all) {
        const key = row.dataset.key, said = by.get(key);
        const beside = ['impossible', 'slack', 'indeterminate'].includes(status) ? 'none' : shortly(said) ?? (found.length ? 'same' : '');
        row.querySelector('.beside').textContent = beside;
        allow(row, reason || (said === undefined && key !== 'ideal' ? 'The same: no wheel loses anything. Give one an efficiency, and raising differs from lowering.' : ''));
      }
      for (const row of lists.wheels.all) row.querySelector('.beside').hidden = !row.querySelector('.beside').textContent;
    },
    // What is being made just now, as pressed.
    making(key) { for (const row of lists.make.all) row.setAttribute('aria-pressed', String(row.dataset.key === key)); },
    folds() { return narrowFolds(); },
  };
}

// A formula that is too long to stand beside a word is only named.
const shortly = (said) => (said?.length > 11 ? 'formula' : said);

// On a narrow page each list folds behind one word that says what is chosen: Show: Labelled.
function narrowFolds() {
  for (const part of document.querySelectorAll('.spread > .margin .list')) {
    const inner = part.querySelector('[role]'), name = part.querySelector('h2').textContent;
    const fold = make('button', { type: 'button', class: 'word bare fold', 'aria-expanded': 'false', 'aria-controls': inner.id });
    const tell = () => {
      const chosen = inner.querySelector('[aria-checked=true] .name');
      renew(fold, chosen ? [`${name}: `, make('b', {}, chosen.textContent)] : [name]);
    };
    fold.addEventListener('click', () => {
      const open = !part.classList.contains('open');
      for (const other of document.querySelectorAll('.spread > .margin .list')) {
        other.classList.toggle('open', other === part && open);
        other.querySelector('.fold')?.setAttribute('aria-expanded', String(other === part && open));
      }
    });
    new MutationObserver(tell).observe(inner, { subtree: true, attributes: true, attributeFilter: ['aria-checked'] });
    part.prepend(fold);
    tell();
  }
}
