// The words window: what to say, what comes next, and the time. It follows the screen, and leads it.
import { allow, find, make, setMade, word } from './dom.js';
import { Sentence, toEnd } from './saying.js';
import { keyed, channelOf, minutes, titled, toGo } from './deck.js';

const line = channelOf(location.hash.slice(1)); // the address says whose words these are
addEventListener('hashchange', () => location.reload());
let state = null, here = false;

const send = (what, at) => line.postMessage({ kind: 'do', what, at });
const step = () => state?.steps[state.at];

const back = word('Back', () => send('back')), on = word('On', () => send('on'), 'main');
const blank = word('Blank the screen', () => send('blank')), ground = word('Light screen', () => send('ground'));
const steps = word('Steps', toggle), inStep = make('span', { class: 'in-step', role: 'status' });
steps.setAttribute('aria-expanded', 'false');
find('foot').append(back, on, make('span', { class: 'gap' }), blank, ground, steps, inStep);

function show() {
  const { at, title } = state, now = step();
  document.title = `Words: ${title}`;
  find('title').textContent = `Words: ${title}`;
  find('at').replaceChildren(make('b', {}, `${at + 1} of ${state.steps.length}`), titled(now.idea));
  find('sentence').textContent = now.spoken;
  setMade(find('formula'), now.formula);
  find('formula').hidden = !now.formula;
  const count = now.spoken.split(/\s+/).length;
  find('shows').replaceChildren(`On the screen: ${now.shows ? lower(now.shows) : 'the rig as it is.'} ${count} words, about ${Math.round(now.seconds)} seconds. `,
    word('Change these words', change, 'link'));
  find('next').replaceChildren(...coming(at));
  blank.textContent = state.blank ? 'Show the screen' : 'Blank the screen';
  ground.textContent = state.ground === 'dark' ? 'Light screen' : 'Dark screen';
  allow(back, at ? '' : 'This is the first step.');
  allow(on, at < state.steps.length - 1 ? '' : 'This is the last step.');
  if (!find('list').hidden) list();
  connected();
}

function coming(at) {
  return [['Next', ''], ['Then', 'then']].flatMap(([name, kind], n) => {
    const one = state.steps[at + 1 + n];
    return one ? [make('dt', {}, name), make('dd', { class: kind }, one.spoken)] : [];
  });
}

function connected() {
  const screen = state?.blank ? 'The screen is blank' : state?.full ? 'The screen is full and in step' : 'The screen is in step';
  inStep.textContent = here ? screen : 'The screen has been left';
}

function time() {
  find('clock').textContent = new Date().toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  if (state) find('gone').textContent = `${minutes((Date.now() - state.started) / 1000)} gone, about ${minutes(toGo(state.steps, state.at))} to go`;
}

// The sentence in one's own words. It stays open until they are kept; the screen has them from the next *On*.
function change() {
  const now = step(), leave = () => { show(); on.focus(); };
  const write = (words) => line.postMessage({ kind: 'words', id: now.id, words }), keep = () => write(sentence.words());
  const sentence = Sentence({ say: now.say, numbers: now.numbers, as: 1, label: 'The words of this step', keep, leave });
  const says = make('p', { class: 'refused', role: 'status' });
  find('shows').replaceChildren(sentence.element, says, make('div', { class: 'choices' },
    word('Keep these words', keep, 'strong'), word("The program's words", () => write('')), word('Leave them', leave)));
  toEnd(sentence.element);
}

function toggle() {
  const box = find('list');
  box.hidden = !box.hidden;
  find('next').hidden = !box.hidden;
  steps.setAttribute('aria-expanded', String(!box.hidden));
  if (!box.hidden) list();
}

function list() {
  find('list').replaceChildren(...(state?.steps ?? []).map((one, n) =>
    make('button', { type: 'button', 'aria-current': n === state.at ? 'step' : null, onclick: () => send('go', n) }, `${n + 1}  ${titled(one.idea)}`)));
}

function lower(words) { return words[0].toLowerCase() + words.slice(1); }

line.addEventListener('message', ({ data }) => {
  if (data.kind === 'state') {
    here = true;
    const was = step(), now = data.steps[data.at], typing = find('shows').querySelector('.say-edit') && was?.id === now.id;
    state = data;
    if (!typing || was.say !== now.say) show();
    time();
  } else if (data.kind === 'refused') {
    find('shows').querySelector('.refused')?.replaceChildren(data.says);
  } else if (data.kind === 'left') { here = false; connected(); }
});

addEventListener('keydown', (event) => {
  if (event.target.closest?.('.say-edit')) return;
  const what = keyed(event);
  if (!what || what === 'leave') return;
  event.preventDefault();
  send(what);
});

connected();
time();
setInterval(time, 1000);
line.postMessage({ kind: 'hello' });
