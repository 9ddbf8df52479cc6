// What is really seen: a rule for the rope taken up, and in words what happens, in order, and why.
import { find, make } from './dom.js';
import { measured } from './hauling.js';

const STEP = 0.02; // of the whole way

// `haul(m)` asks for the figure at so much rope.
export function Tried({ say, haul }) {
  const box = find('below');
  const slider = make('input', { type: 'range', min: 0, max: 100, step: 'any', 'aria-label': 'Rope taken up' });
  const told = make('output', {}), sees = make('p', {}), assumed = make('p', {});
  const taken = make('details', {}, make('summary', {}, 'What is taken where the slip says nothing'), assumed);
  const rule = make('div', { class: 'haul tried' }, make('span', {}, 'Rope taken up'), slider, told, sees, taken);
  let most = 0, hand = 0, held = false;

  function put(next) {
    hand = Math.max(0.001, Math.min(most, Math.round(next * 1e4) / 1e4));
    slider.value = 100 * hand / most;
    told.textContent = `${measured(1000 * hand)}\u00a0mm`;
    slider.setAttribute('aria-valuetext', `${measured(1000 * hand)} millimetres of rope`);
  }

  function set(next) { put(next); haul(hand); }

  slider.addEventListener('input', () => { held = true; set(most * Number(slider.value) / 100); });
  slider.addEventListener('change', () => { held = false; });
  slider.addEventListener('keydown', (event) => {
    const by = { ArrowRight: STEP, ArrowUp: STEP, ArrowLeft: -STEP, ArrowDown: -STEP, PageUp: 10 * STEP, PageDown: -10 * STEP, Home: -1, End: 1 }[event.key];
    if (!by) return;
    event.preventDefault();
    set(hand + by * most);
  });

  return {
    // `tried` as the server gives it with the view of that name; null ends it.
    show(tried) {
      find('answer').hidden = Boolean(tried);
      find('rules').classList.toggle('beside', Boolean(tried));
      if (!tried) { rule.remove(); return; }
      most = tried.most;
      if (!held) put(tried.hand);
      sees.textContent = [...tried.sees, tried.why].filter(Boolean).join(' ');
      assumed.textContent = `${tried.assumed.join('; ')}.`;
      taken.hidden = !tried.assumed.length;
      if (rule.isConnected) return;
      box.append(rule);
      say('What is really seen stands under the figure.');
    },
  };
}
