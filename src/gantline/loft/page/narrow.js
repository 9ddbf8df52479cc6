// On a narrow page four words at the foot choose what stands under the plate, and the lists fold.
import { find, make, word } from './dom.js';
import { following } from './notation.js';

const MOST = 5;

export function Narrow({ slip, margin, words, undo }) {
  const page = find('rig-page'), foot = page.querySelector('.foot'), more = find('more'), folded = find('head-words');
  page.dataset.shows = 'plate';
  margin.folds();
  foot.addEventListener('click', (event) => {
    const to = event.target.closest('[data-to]');
    if (to) show(to.dataset.to);
  });
  more.addEventListener('click', () => {
    const shown = folded.classList.toggle('shown');
    more.setAttribute('aria-expanded', String(shown));
  });

  function show(part) {
    page.dataset.shows = part;
    for (const each of foot.children) each.setAttribute('aria-pressed', String(each.dataset.to === part));
    typeNext();
  }

  // What may be written next at the cursor, for a thumb.
  function typeNext() {
    const row = find('type-next'), text = slip.text, so_far = text.slice(0, slip.at);
    const begun = so_far.match(/[\w.]*$/)[0];
    const fit = following(so_far, text, words).map((each) => each.label).filter((each) => each.startsWith(begun) && each !== begun).slice(0, MOST);
    row.hidden = page.dataset.shows !== 'slip';
    row.replaceChildren(make('span', { class: 'soft' }, 'Type next'), ...fit.map((each) => word(each, () => {
      slip.replace({ from: slip.at - begun.length, to: slip.at, insert: `${each} ` }, `${each} written`);
      slip.focus();
    })), word('Undo', undo));
  }

  return { next: () => { if (page.dataset.shows === 'slip') typeNext(); } };
}
