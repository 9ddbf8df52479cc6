// After a change made on the plate, rope and figure move to their new place; words stand there at once.
const MS = 160, ARMED_MS = 3000, MOST = 1500; // marks, past which nothing moves
const calm = matchMedia('(prefers-reduced-motion: reduce)');

// The marks of a figure by what they show, the same in the figure before and the one after.
function* marks(svg) {
  const counted = new Map();
  for (const mark of svg.querySelectorAll('[data-part]:not(text)')) {
    const { part, strand, sheave } = mark.dataset;
    const name = [mark.tagName, mark.getAttribute('class'), part, strand, sheave].join(' '), n = counted.get(name) || 0;
    counted.set(name, n + 1);
    yield [`${name} ${n}`, mark];
  }
}

export function Moves() {
  let until = 0, from = null, left = MS, running = [];

  // A box of the screen in the figure's own px.
  function own(svg) {
    const back = svg.getScreenCTM().inverse();
    return ({ left, top, right, bottom }) => {
      const a = new DOMPoint(left, top).matrixTransform(back), b = new DOMPoint(right, bottom).matrixTransform(back);
      return { x: a.x, y: a.y, wide: b.x - a.x, high: b.y - a.y };
    };
  }

  function move(name, mark, was, is) {
    const share = (a, b) => (a > 1 && b > 1 ? a / b : 1);
    let [across, down] = [share(was.wide, is.wide), share(was.high, is.high)];
    if (mark.tagName !== 'line' && Math.abs(across - down) > 0.05 * down) [across, down] = [1, 1]; // another shape
    const x = was.x + was.wide / 2 - across * (is.x + is.wide / 2), y = was.y + was.high / 2 - down * (is.y + is.high / 2);
    if (Math.hypot(x + (across - 1) * is.x, y + (down - 1) * is.y) < 0.5 && Math.abs(down - 1) < 0.01) return;
    const on = mark.animate({ translate: [`${x}px ${y}px`, '0px 0px'], scale: [`${across} ${down}`, '1 1'] }, { duration: left, easing: 'ease-out' });
    running.push({ name, mark, on });
  }

  return {
    // The next figure follows from a change made on the plate.
    arm() { until = performance.now() + ARMED_MS; },
    // Where everything stands, before the figure is drawn anew.
    before(svg) {
      from = null;
      left = MS;
      if (!svg || calm.matches || performance.now() > until) return;
      until = 0;
      const all = [...marks(svg)];
      if (all.length <= MOST) from = new Map(all.map(([name, mark]) => [name, mark.getBoundingClientRect()]));
    },
    // From where it stood; only when all that is measured has been measured.
    go(svg) {
      if (!from || !svg) return;
      const was = from, inside = own(svg), all = [...marks(svg)].filter(([name]) => was.has(name));
      from = null;
      const boxes = all.map(([name, mark]) => [name, mark, inside(was.get(name)), inside(mark.getBoundingClientRect())]);
      for (const each of boxes) move(...each);
    },
    // Everything stands where it belongs, so that it can be measured; what was on its way goes on from there.
    rest() {
      const still = running.filter(({ on, mark }) => on.playState !== 'finished' && mark.isConnected);
      if (still.length) {
        left = Math.max(1, left - (still[0].on.currentTime || 0));
        from = new Map(still.map(({ name, mark }) => [name, mark.getBoundingClientRect()]));
      }
      for (const { on } of running) on.cancel();
      running = [];
    },
  };
}
