// The sheet a figure lies on: chalk under it, rings and the rope in hand over it, all in the figure's own px.
import { draw, make, setMade } from './dom.js';
import { Moves } from './plate_move.js';

const MOST = 1.45; // screen px for one of the figure's: a small rig is not blown up

export function Sheet(home) {
  const under = draw('svg', { class: 'chalk', 'aria-hidden': 'true' });
  const over = draw('svg', { class: 'over', 'aria-hidden': 'true' });
  const figure = make('div', { class: 'figure', 'aria-hidden': 'true' });
  const stack = make('div', { class: 'stack' }, under, figure, over);
  home.append(stack);
  const moves = Moves();
  let mirrored = false, shown = null;

  const svg = () => figure.querySelector('svg');

  // The frame, wide enough for `spots` besides what is drawn.
  function frame(spots = []) {
    const drawn = svg();
    moves.rest();
    if (!drawn) return;
    drawn.dataset.own ??= drawn.getAttribute('viewBox');
    const [left, top, width, height] = drawn.dataset.own.split(' ').map(Number);
    const edges = spots.map(({ x, y, r }) => [x - r - 20, y - r - 20, x + r + 20, y + r + 20]);
    const x1 = Math.min(left, ...edges.map((e) => e[0])), y1 = Math.min(top, ...edges.map((e) => e[1]));
    const x2 = Math.max(left + width, ...edges.map((e) => e[2])), y2 = Math.max(top + height, ...edges.map((e) => e[3]));
    const wide = Math.max(x2 - x1, stack.clientWidth / MOST), high = Math.max(y2 - y1, stack.clientHeight / MOST);
    const box = `${(x1 + x2 - wide) / 2} ${(y1 + y2 - high) / 2} ${wide} ${high}`;
    for (const each of [under, drawn, over]) each.setAttribute('viewBox', box);
  }

  return {
    stack, over, under,
    get svg() { return svg(); },
    show(markup) {
      if (markup === shown) return;
      shown = markup;
      if (!mirrored) moves.before(svg());
      setMade(figure, markup);
      for (const word of figure.querySelectorAll('title,desc,style')) word.remove();
      const drawn = svg();
      drawn?.removeAttribute('aria-labelledby');
      drawn?.removeAttribute('role');
      frame();
      for (const each of [under, over]) each.replaceChildren();
      this.mirror(mirrored);
    },
    frame,
    // The next figure follows from a change made here: what it shares with this one moves to its new place, once
    // `settled` says that everything has been measured.
    changes() { moves.arm(); },
    settled() { moves.go(svg()); },
    mirror(on = !mirrored) {
      mirrored = on;
      stack.classList.toggle('mirrored', mirrored);
      return mirrored;
    },
    // A point of the screen in px of the figure.
    point({ clientX, clientY }) {
      const at = new DOMPoint(clientX, clientY).matrixTransform(over.getScreenCTM().inverse());
      return { x: at.x, y: at.y };
    },
    // Chalk behind what is lit, with a line of ink about it: colour is never the only sign.
    chalk(marks) {
      under.replaceChildren(...['edge', 'band'].flatMap((kind) => marks.map((mark) => behind(mark, kind))));
    },
  };
}

// The same shape as a mark of the figure, wider, to lie behind it.
function behind(mark, kind) {
  const copy = mark.cloneNode(false), thin = mark.tagName === 'line' || mark.hasAttribute('data-wrap');
  for (const { name } of [...copy.attributes]) if (name.startsWith('data-')) copy.removeAttribute(name);
  copy.setAttribute('class', `${kind} ${thin ? 'along' : 'about'}`);
  return copy;
}
