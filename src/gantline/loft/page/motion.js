// The motion: one long rule for the hand's way, with Haul and Ease. It stops where blocks meet, and says so.
import { find, make, word } from './dom.js';
import { Hauling, measured } from './hauling.js';

const WHOLE_MS = 4000, STEP = 2;

export function Motion({ say }) {
  const box = find('below'), calm = matchMedia('(prefers-reduced-motion: reduce)');
  const slider = make('input', { type: 'range', min: 0, max: 100, step: 'any', value: 0, 'aria-label': "The hand's way" });
  const told = make('output', {});
  const rule = make('div', { class: 'haul' }, word('Haul', () => run(1)), slider, word('Ease', () => run(-1)), told);
  let rig = null, drawn = null, ways = [], frame = 0, share = 0;

  function pose(next) {
    share = Math.max(0, Math.min(1, next));
    rig.pose(share);
    slider.value = 100 * share;
    told.textContent = ways.map(([name, way, unit]) => `${name} ${measured(way * share)} ${unit}`).join(', ');
    slider.setAttribute('aria-valuetext', told.textContent || `${Math.round(100 * share)} per cent of the way`);
  }

  function end() {
    say(share === 1 ? 'Block to block: it goes no further.' : 'Back where it began.');
  }

  function run(way) {
    cancelAnimationFrame(frame);
    if (calm.matches) { pose(way > 0 ? 1 : 0); end(); return; }
    const from = share, left = way > 0 ? 1 - from : from, start = performance.now();
    const step = (time) => {
      const t = left ? Math.min(1, (time - start) / (WHOLE_MS * left)) : 1;
      pose(from + way * left * t * t * (3 - 2 * t));
      if (t < 1) frame = requestAnimationFrame(step); else end();
    };
    frame = requestAnimationFrame(step);
  }

  slider.addEventListener('input', () => { cancelAnimationFrame(frame); pose(Number(slider.value) / 100); });
  slider.addEventListener('keydown', (event) => {
    const by = { ArrowRight: STEP, ArrowUp: STEP, ArrowLeft: -STEP, ArrowDown: -STEP, PageUp: 10 * STEP, PageDown: -10 * STEP }[event.key];
    if (!by) return;
    event.preventDefault();
    cancelAnimationFrame(frame);
    pose(share + by / 100);
  });

  return {
    // `motion` as the server gives it with the view of that name; null ends it.
    show(motion, svg) {
      cancelAnimationFrame(frame);
      find('rules').hidden = Boolean(motion);
      find('plate').classList.toggle('hauled', Boolean(motion));
      if (!motion) { rule.remove(); drawn = null; share = 0; return; }
      if (svg !== drawn) rig = Hauling(svg, motion.rates);
      drawn = svg;
      ways = motion.ways;
      if (!rule.isConnected) box.append(rule);
      pose(share);
    },
  };
}
