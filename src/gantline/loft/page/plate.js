// Stand-in until the plate that can be pointed at is here (its maker may overwrite this file whole).
import { setMade } from './dom.js';
import { touches } from './light.js';

export function Plate(element, { light }) {
  element.addEventListener('pointerover', (event) => {
    const mark = event.target.closest('[data-part]');
    if (mark) light([mark.dataset.strand || mark.dataset.sheave || mark.dataset.part]);
  });
  element.addEventListener('pointerleave', () => light(null));
  return {
    show(seen) { setMade(element, seen ? seen.svg : ''); },
    light(ids) {
      for (const mark of element.querySelectorAll('[data-part]')) {
        mark.classList.toggle('is-lit', [mark.dataset.part, mark.dataset.strand, mark.dataset.sheave].some((id) => id && touches(ids, id)));
      }
    },
    clear() { element.replaceChildren(); },
  };
}
