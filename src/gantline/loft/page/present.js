// Presenting: the account full-screen, one step at a time, in step with the words window.
import { make, setMade, word } from './dom.js';
import { keyed, channelOf, moved, titled } from './deck.js';
import { me } from './keep.js';
import { ask } from './server.js';
import { bound } from './saying.js';

const REST_MS = 2000, SWIPE_PX = 48, LONG = 18, EDGE = 8, WIDER = 1.25;
const GROUND = 'gantline screen ground';

// `own` writes a step's sentence in the tutor's own words; it gives what stands against that, if anything.
export function Present({ store, say, own }) {
  const line = channelOf(me), root = document.documentElement;
  let deck = null, at = 0, blank = false, started = 0, ground = '', pageGround = '', shown = '', offered = false, timer = 0, from = null, frames = [];

  const idea = make('span', { class: 'idea' }), trying = make('span', { class: 'trying' }), ticks = make('span', { class: 'ticks', 'aria-hidden': 'true' });
  const picture = make('div', { class: 'picture' }), sentence = make('p', { class: 'sentence' }), formula = make('p', { class: 'equation' });
  const said = make('div', { class: 'said' }, sentence, formula), spoken = make('p', { class: 'unseen', role: 'status', 'aria-live': 'polite' });
  const light = word('Light screen', () => setGround(ground === 'dark' ? 'light' : 'dark'));
  const words = make('div', { class: 'words', role: 'toolbar', 'aria-label': 'Presenting' },
    word('Back', () => act('back')), word('On', () => act('on'), 'main'), light, word('Blank', () => act('blank')),
    word('Words window', openWords), word('Leave', () => act('leave')));
  const offer = word('Open the words window', openWords, 'offer');
  const screen = make('section', { class: 'screen', 'aria-label': 'Presenting', tabindex: -1, hidden: true }, picture, said,
    make('div', { class: 'base' }, idea, trying, ticks), offer, words, spoken);

  const stored = () => `gantline present ${store.name}`;

  // Opens at the step asked for, else where it was left. What is shown is asked for once, with every plate.
  async function open(id = null) {
    await style();
    const wanted = question();
    const answer = await ask('present', wanted).catch((error) => { say(error.message); return null; });
    if (!answer) return;
    if (answer.problems.length) { say(`Line ${answer.problems[0].line}: ${answer.problems[0].says}. Mend it first; then it can be presented.`); return; }
    shown = JSON.stringify(wanted);
    deck = closed(answer);
    at = Math.max(0, deck.steps.findIndex((step) => step.id === (id ?? localStorage.getItem(stored()))));
    begin();
  }

  function question() {
    return { text: store.text, script: store.script, what_if: Object.fromEntries(store.whatIf), ...(store.method ? { method: store.method } : {}) };
  }

  function begin() {
    from = document.activeElement;
    for (const other of document.body.children) if (other !== screen) other.inert = true;
    screen.hidden = false;
    blank = false;
    started = Date.now();
    pageGround = root.dataset.ground ?? '';
    offer.hidden = offered;
    sessionStorage.setItem('gantline presenting', store.name);
    setGround(localStorage.getItem(GROUND) || 'dark');
    screen.requestFullscreen?.().catch(() => {});
    screen.focus();
    paint();
    wake();
  }

  function leave() {
    if (screen.hidden) return;
    screen.hidden = true;
    for (const other of document.body.children) other.inert = false;
    const toWhereItWas = () => from?.focus?.(); // what lies outside a full screen cannot be focused
    if (document.fullscreenElement) document.exitFullscreen().then(toWhereItWas, toWhereItWas); else toWhereItWas();
    if (pageGround) root.dataset.ground = pageGround; else delete root.dataset.ground;
    sessionStorage.removeItem('gantline presenting');
    line.postMessage({ kind: 'left' });
  }

  async function act(what, to = at) {
    if (what === 'leave') { leave(); return; }
    if (what === 'blank' || blank) { setBlank(what === 'blank' ? !blank : false); return; }
    const next = what === 'go' ? to : moved(what, at, deck.steps.length);
    if (what === 'on' && next === at) { tell('This is the last step.'); return; }
    at = next;
    if (what === 'on') await renew();
    paint();
  }

  // Edits reach the screen with *On*: then the steps are asked for again. Without a server it goes on with those it has.
  async function renew() {
    const wanted = question(), key = JSON.stringify(wanted);
    if (key === shown) return;
    const answer = await ask('present', wanted).catch(() => null);
    if (!answer || answer.problems.length) return;
    const id = deck.steps[at].id;
    shown = key;
    deck = closed(answer);
    at = Math.max(deck.steps.findIndex((step) => step.id === id), Math.min(at, deck.steps.length - 1) * !deck.steps.some((step) => step.id === id));
  }

  // The rig stays where it is from step to step: all plates share one frame, as close as they allow. Those that set
  // arrows or bars beside the rig share a wider one.
  function closed(answer) {
    if (!screen.isConnected) document.body.append(screen);
    const was = screen.hidden;
    screen.hidden = false;
    const boxes = answer.steps.map((step) => {
      setMade(picture, step.svg);
      return picture.querySelector('svg')?.getBBox();
    });
    screen.hidden = was;
    const narrow = WIDER * Math.min(...boxes.filter(Boolean).map((box) => box.width));
    const close = (box) => box && box.width <= narrow;
    frames = boxes.map((box) => union(boxes.filter((other) => other && (!close(box) || close(other)))));
    return answer;
  }

  function setBlank(wanted) {
    blank = wanted;
    screen.classList.toggle('blank', blank);
    tell(blank ? 'The screen is blank.' : 'The screen shows again.');
    post();
  }

  function setGround(wanted) {
    ground = wanted;
    root.dataset.ground = ground;
    localStorage.setItem(GROUND, ground);
    light.textContent = ground === 'dark' ? 'Light screen' : 'Dark screen';
    post();
  }

  function paint() {
    const step = deck.steps[at];
    setMade(picture, step.svg);
    picture.querySelector('svg')?.setAttribute('viewBox', frames[at]);
    sentence.textContent = bound(step);
    setMade(formula, step.formula);
    formula.hidden = !step.formula;
    formula.classList.toggle('long', [...formula.querySelectorAll('math')].some((side) => side.getAttribute('alttext').length > LONG));
    idea.textContent = titled(step.idea);
    const tried = Object.entries(deck.trying);
    trying.textContent = tried.length ? `What if: ${tried.map(([name, value]) => `${name.replace('.', ' ')} ${value}`).join(', ')}` : '';
    ticks.replaceChildren(...deck.steps.map((_, n) => make('span', { class: n === at ? 'tick now' : n < at ? 'tick gone' : 'tick' })));
    fit();
    localStorage.setItem(stored(), step.id);
    tell(`Step ${at + 1} of ${deck.steps.length}, ${titled(step.idea)}. ${step.spoken}${step.formula_spoken ? ` ${step.formula_spoken}.` : ''}`);
    post();
  }

  // A formula that is too wide is set smaller, and all of it where it is too high; nothing is ever cut off.
  function fit() {
    const room = screen.clientHeight * (innerWidth > 1.1 * innerHeight ? 0.76 : 0.34);
    shrink('--fit', () => {
      shrink('--tight', () => formula.scrollWidth <= formula.clientWidth + 1);
      return sentence.offsetHeight + (formula.hidden ? 0 : 1.3 * formula.offsetHeight) <= room;
    });
  }

  function shrink(name, fits) {
    for (let size = 1; size >= 0.4; size -= 0.06) {
      said.style.setProperty(name, size.toFixed(2));
      if (fits()) return;
    }
  }

  function tell(words) { spoken.textContent = words; }

  function post() {
    if (!deck || screen.hidden) return;
    const steps = deck.steps.map((step) => ({ ...step, svg: '' }));
    line.postMessage({ kind: 'state', title: deck.title, steps, at, blank, ground, started, full: Boolean(document.fullscreenElement) });
  }

  line.addEventListener('message', ({ data }) => {
    if (screen.hidden) return;
    if (data.kind === 'hello') post();
    else if (data.kind === 'do' && data.what === 'ground') setGround(ground === 'dark' ? 'light' : 'dark');
    else if (data.kind === 'do') act(data.what, data.at);
    else if (data.kind === 'words') reword(data);
  });

  // New words of the words window: it shows them at once, the screen with the next *On*.
  async function reword({ id, words }) {
    const refused = await own(deck.steps.find((step) => step.id === id), deck.method, words);
    if (refused) { line.postMessage({ kind: 'refused', says: refused }); return; }
    await renew();
    post();
  }

  function openWords() {
    offered = true;
    offer.hidden = true;
    window.open(`/page/words.html#${me}`, 'gantline-words', 'popup,width=1000,height=720');
    screen.focus();
  }

  function wake() {
    screen.classList.remove('resting');
    clearTimeout(timer);
    timer = setTimeout(() => screen.classList.add('resting'), REST_MS);
  }

  screen.addEventListener('keydown', (event) => {
    const what = keyed(event);
    event.stopPropagation();
    if (!what) { wake(); return; }
    event.preventDefault();
    act(what);
  });
  screen.addEventListener('pointermove', wake);
  screen.addEventListener('click', (event) => { if (!event.target.closest('button')) act('on'); });

  let touched = null;
  screen.addEventListener('touchstart', (event) => { touched = event.changedTouches[0].clientX; }, { passive: true });
  screen.addEventListener('touchend', (event) => {
    const far = event.changedTouches[0].clientX - touched;
    if (Math.abs(far) < SWIPE_PX || event.target.closest('button')) return;
    event.preventDefault();
    act(far < 0 ? 'on' : 'back');
  });
  document.addEventListener('fullscreenchange', () => {
    if (!document.fullscreenElement && !screen.hidden) leave(); else post();
    if (!screen.hidden) fit();
  });
  addEventListener('resize', () => { if (!screen.hidden) fit(); });
  addEventListener('pagehide', () => { if (!screen.hidden) line.postMessage({ kind: 'left' }); });

  // After a reload in the middle of presenting the screen stands again where it was.
  function resume() {
    if (sessionStorage.getItem('gantline presenting') === store.name && store.name) open();
  }

  return { open, resume };
}

function union(boxes) {
  const left = Math.min(...boxes.map((box) => box.x)), top = Math.min(...boxes.map((box) => box.y));
  const right = Math.max(...boxes.map((box) => box.x + box.width)), low = Math.max(...boxes.map((box) => box.y + box.height));
  return `${left - EDGE} ${top - EDGE} ${right - left + 2 * EDGE} ${low - top + 2 * EDGE}`;
}

let styled = null;
function style() {
  styled ??= new Promise((ready) => {
    document.head.append(make('link', { rel: 'stylesheet', href: '/page/present.css', onload: ready, onerror: ready }));
  });
  return styled;
}
