// The account: methods as words, the steps of the chosen one, one of them open; reasons of those that refuse.
import { find, make, made, renew, roving, word } from './dom.js';
import { Sentence, toEnd } from './saying.js';

// Short words for the row of methods; the account itself has the whole name.
const SHORT = { count: 'By the cut', 'free-body': 'Free bodies', carry: 'Pull along the rope', 'rope-length': 'Rope length', work: 'Work', stages: 'Stages', newton: 'Newton' };
const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

// `own` writes a step's sentence in the tutor's own words, and says whether it could.
export function Account({ store, light, choose, open, present, linesOf, own }) {
  const methods = find('methods'), steps = find('steps'), refusals = find('refusals'), note = find('account-note');
  const settle = roving(methods, '[role=tab]', (tab) => tab.getAttribute('aria-selected') === 'true');
  const unkept = new Map(); // by method and step: sentences that are being written, kept until they are written or left
  const unkeptAt = (id) => unkept.get(`${told.method} ${id}`);
  let told = null, plain = new Map();

  // `given` is the server's account; without what-if values it is remembered, so that changed terms can be told apart.
  function show(given, noted = '') {
    if (!store.whatIf.size) plain = new Map(given.steps.map((step) => [`${given.method} ${step.id}`, step.formula]));
    note.textContent = noted || (given.steps.length ? `why it is so, in ${COUNTS[given.steps.length] || given.steps.length} steps` : 'why it cannot be told this way');
    const same = told && JSON.stringify(told) === JSON.stringify(given) && steps.dataset.open === String(store.step)
      && steps.dataset.trying === String(store.whatIf.size > 0);
    told = given;
    if (same) return;
    renew(methods, given.methods.map(tab), methods);
    settle();
    build();
  }

  function tab(each) {
    const chosen = each.method === told.method;
    const short = SHORT[each.method] || each.name;
    const name = each.refused ? `${short}, does not hold here: ${each.refused}` : null;
    return make('button', {
      type: 'button', role: 'tab', id: `tab-${each.method}`, 'data-key': each.method, class: each.refused ? 'refused' : null, 'aria-selected': String(chosen),
      'aria-label': name, 'aria-controls': 'steps', tabindex: -1, onclick: () => choose(each.method),
    }, short);
  }

  function build() {
    steps.setAttribute('aria-labelledby', `tab-${told.method}`);
    steps.dataset.open = String(store.step);
    steps.dataset.trying = String(store.whatIf.size > 0);
    const chosen = told.methods.find((each) => each.method === told.method);
    const rows = told.steps.map((step, n) => (step.id === store.step ? opened(step, n) : row(step, n)));
    renew(steps, rows.length ? rows : [make('p', {}, chosen?.refused || '')], steps);
    const others = told.methods.filter((each) => each.refused && each.method !== told.method);
    const unsaid = told.unsaid.map((each) => make('p', { class: 'unsaid' }, make('b', {}, 'Not said, but kept in your words.'), ` ${each}`));
    renew(refusals, [...unsaid, ...others.map((each) => light.speaks(make('p', {}, `${each.name}, not here: ${each.refused}`), each.parts))], refusals);
  }

  function row(step, n) {
    const changed = store.whatIf.size && plain.has(`${told.method} ${step.id}`) && plain.get(`${told.method} ${step.id}`) !== step.formula;
    const button = make('button', { type: 'button', class: `step-row${changed ? ' changed' : ''}`, 'aria-expanded': 'false', 'data-key': step.id, onclick: () => open(step.id) },
      make('span', { class: 'n' }, String(n + 1)), make('span', { class: 'name' }, titled(step.idea)), made('span', step.formula, { class: 'f' }));
    return light.speaks(button, step.parts);
  }

  function opened(step, n) {
    const count = told.steps.length;
    const head = make('button', { type: 'button', class: 'step-head', 'aria-expanded': 'true', 'data-key': step.id, onclick: () => open(null) },
      make('b', {}, titled(step.idea)), make('span', { class: 'soft' }, `${n + 1} of ${count}`));
    const say = make('p', { class: 'say' }, step.says);
    const big = step.formula ? made('div', step.formula, { class: 'big' }) : '';
    if (big) for (const piece of big.querySelectorAll('math')) light.speaks(piece, step.parts, step.says);
    const mine = make('button', { type: 'button', class: 'word link', 'data-key': `own ${step.id}`, onclick: () => edit(step) }, 'Say it in my own words');
    const box = make('div', { class: 'step-open' },
      make('span', { class: 'n' }, String(n + 1)), head, ...(unkeptAt(step.id) || [light.speaks(say, step.parts)]), big,
      make('p', { class: 'from' }, make('span', {}, linesOf(step)), unkeptAt(step.id) ? '' : mine),
      make('div', { class: 'choices' },
        keyed(word('Back', () => move(-1)), 'back'), keyed(word('On', () => move(1), 'strong'), 'on'),
        keyed(word('Present from here', () => present(step.id), 'bare last'), 'from-here')));
    return box;
  }

  function move(by) {
    const at = told.steps.findIndex((step) => step.id === store.step), next = told.steps[at + by];
    open(next ? next.id : store.step, !next);
  }

  // The sentence in one's own words. It stays open, with all that is in it, until it is kept or left.
  function edit(step) {
    const place = `${told.method} ${step.id}`;
    const shut = () => {
      unkept.delete(place);
      build();
      steps.querySelector(`[data-key="${CSS.escape(`own ${step.id}`)}"]`)?.focus();
    };
    const write = async (words) => { if (await own(step, told.method, words)) shut(); else toEnd(sentence.element); };
    const keep = () => write(sentence.words()), leave = shut;
    const sentence = Sentence({ say: step.say, numbers: step.numbers, as: 0, label: `The sentence of ${step.idea}`, keep, leave });
    sentence.element.dataset.key = `say ${step.id}`;
    unkept.set(place, [sentence.element, make('div', { class: 'choices' }, word('Keep it', keep, 'strong'), word("The program's words", () => write('')), word('Leave it', leave))]);
    build();
    toEnd(sentence.element);
  }

  steps.addEventListener('keydown', (event) => {
    if (event.target.closest('.say-edit')) return;
    const all = [...steps.querySelectorAll('[aria-expanded]')], at = all.indexOf(event.target.closest('[aria-expanded]'));
    if (event.ctrlKey && ['ArrowRight', 'ArrowLeft'].includes(event.key)) move(event.key === 'ArrowRight' ? 1 : -1);
    else if (at >= 0 && event.key === 'ArrowDown') all[Math.min(all.length - 1, at + 1)].focus();
    else if (at >= 0 && event.key === 'ArrowUp') all[Math.max(0, at - 1)].focus();
    else return;
    event.preventDefault();
  });

  function clear(said) {
    told = null;
    note.textContent = said;
    for (const each of [methods, steps, refusals]) each.replaceChildren();
  }

  return {
    show, build,
    get told() { return told; },
    step: (id) => told?.steps.find((each) => each.id === id),
    wait(said) { note.textContent = said; },
    clear,
    begin() { unkept.clear(); clear(''); },
  };
}

function titled(idea) { return idea[0].toUpperCase() + idea.slice(1); }

function keyed(element, key) {
  element.dataset.key = key;
  return element;
}
