// On a narrow page four words at the foot choose what stands under the plate, and the lists fold.
import { find, make } from './dom.js';

export function Narrow({ store, slip, margin }) {
  const page = find('rig-page'), foot = page.querySelector('.foot'), more = find('more'), words = find('head-words');
  page.dataset.shows = 'plate';
  margin.folds();
  foot.addEventListener('click', (event) => {
    const to = event.target.closest('[data-to]');
    if (to) show(to.dataset.to);
  });
  more.addEventListener('click', () => {
    const shown = words.classList.toggle('shown');
    more.setAttribute('aria-expanded', String(shown));
  });

  function show(part) {
    page.dataset.shows = part;
    for (const each of foot.children) each.setAttribute('aria-pressed', String(each.dataset.to === part));
    if (part === 'slip') typeNext();
  }

  // What is likely to be written next, for a thumb.
  function typeNext() {
    const row = find('type-next');
    row.hidden = false;
    row.replaceChildren(...['weight', 'carries', 'over', 'under', 'hand', 'raise'].map((each) => make('button', {
      type: 'button', class: 'word', onclick: () => { slip.replace({ from: slip.at, to: slip.at, insert: `${each} ` }, `${each} written`); slip.focus(); },
    }, each)));
  }

  return { show, store };
}
