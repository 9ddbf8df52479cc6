// The shelf: ready rigs with what they teach, searched by it; the files of the folder; the way to begin from nothing.
import { allow, draw, find, make, renew, roving, unquoted } from './dom.js';
import { ask } from './server.js';

// What the shelf is asked for, and the words of a rig's head that answer it.
const TOPICS = [
  ['Everything', () => true],
  ['Turning a pull', /fixed wheel|turns? the|where you stand|level run|at the floor/],
  ['Counting strands', /strand|counting the strand/],
  ['Two ropes or more', /ropes|burton|each new rope/],
  ['Stages', /two times|three times|stage|powers of two|again/],
  ['Moving by itself', /speed|weights? over|move|falling/],
  ['Friction', /friction|lose|stiff|lowering takes/],
  ['Riders', /seat|rider/],
  ['Impossible rigs', /impossible|cannot|any sharing|would have to push|does not say/],
];
const speaks = (rig) => `${rig.title} ${rig.gain || ''} ${rig.teaches} ${rig.name.replace(/-/g, ' ')}`.toLowerCase();
const fits = (rig, test) => (typeof test === 'function' ? test() : test.test(`${rig.name} ${rig.teaches}`.toLowerCase()));

// Rigs stand in the order of what they teach, the easy before the hard.
const rank = (rig) => (TOPICS.findIndex(([, test], n) => n && fits(rig, test)) + TOPICS.length) % TOPICS.length;

const NEAR = '300px', LATER_MS = 1500;

// When a file was changed: the time of today, the day of this week, else the date.
function day(at) {
  const date = new Date(at), ago = (new Date().setHours(23, 59, 59) - date) / 86400000;
  if (ago < 1) return date.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  return date.toLocaleDateString('en-GB', ago < 7 ? { weekday: 'short' } : { day: 'numeric', month: 'short' });
}

export function Shelf({ rigs, files, take, open, nothing, dark }) {
  rigs = [...rigs].sort((a, b) => rank(a) - rank(b));
  const list = find('rigs'), topics = find('topics'), search = find('teach'), says = find('shelf-says');
  let topic = TOPICS[0][0];
  const settle = roving(topics, '.row', (row) => row.getAttribute('aria-checked') === 'true');

  topics.replaceChildren(...TOPICS.map(([name, test]) => make('button', {
    type: 'button', role: 'radio', class: 'row', tabindex: -1, 'aria-checked': String(name === topic), onclick: () => choose(name),
  }, make('span', { class: 'name' }, name), make('span', { class: 'beside' }, String(rigs.filter((rig) => fits(rig, test)).length)))));
  settle();

  function choose(name) {
    topic = name;
    for (const row of topics.children) row.setAttribute('aria-checked', String(row.querySelector('.name').textContent === name));
    settle();
    paint();
  }

  function paint() {
    const words = search.value.toLowerCase().split(/\s+/).filter(Boolean), phrase = words.join(' ');
    const test = TOPICS.find(([name]) => name === topic)[1], all = rigs.filter((rig) => fits(rig, test));
    const whole = all.filter((rig) => speaks(rig).includes(phrase)); // "gain 2" as it stands, before its words one by one
    const found = whole.length ? whole : all.filter((rig) => words.every((each) => speaks(rig).includes(each)));
    says.textContent = found.length ? '' : 'Nothing on the shelf teaches that yet. Nearest: Counting strands. Or start from nothing.';
    const shown = found.length ? found : rigs.filter((rig) => fits(rig, TOPICS[2][1]));
    list.replaceChildren(...(words.length ? [] : [fromNothing()]), ...shown.map(card));
  }

  // A figure is drawn for whoever comes near it: the first rig that is taken need not wait for those below.
  const near = new IntersectionObserver((found) => {
    for (const { target } of found.filter((each) => each.isIntersecting)) {
      target.src = `/shelf/${target.dataset.of}?theme=${dark() ? 'dark' : 'light'}`;
      near.unobserve(target);
    }
  }, { rootMargin: NEAR });

  function card(rig) {
    const picture = make('img', { 'data-of': rig.name, alt: '', decoding: 'async' });
    near.observe(picture);
    return make('li', {}, make('button', { type: 'button', class: 'rig-card', 'data-rig': rig.name, onclick: () => take(rig) },
      make('span', { class: 'picture' }, picture), make('b', {}, rig.title), make('span', { class: 'gain' }, rig.gain || ''), make('i', {}, rig.teaches)));
  }

  function fromNothing() {
    return make('li', {}, make('button', { type: 'button', class: 'rig-card nothing', 'data-rig': '', onclick: nothing },
      make('span', { class: 'picture' }, draw('svg', { viewBox: '0 0 120 160', 'aria-hidden': 'true' }, draw('path', { class: 'beam', d: 'M10 12h100' }), draw('path', { d: 'M60 13v44M60 39a18 18 0 1 1 -.1 0zM42 57v65M78 57v40M24 122h36v34h-36z' }))), make('b', {}, 'From nothing'), make('span', { class: 'gain' }, 'seven clicks to four strands'), make('i', {}, 'Reeve it by pointing')));
  }

  // The files of the folder by name; once they were looked through, each with its title, and what is wrong with it.
  function paintFiles(names, rigs_ = []) {
    const known = new Map(rigs_.map((each) => [each.name, each]));
    renew(find('files'), names.map((name) => make('li', {}, fileRow(name, known.get(name) || {}))), find('files'));
    find('folder-head').hidden = !names.length;
    allow(find('open-file'), names.length ? '' : 'There is no rig in this folder yet.');
  }

  function fileRow(name, { title, at, wrong }) {
    const stem = name.replace(/\.rig$/, '');
    return make('button', { type: 'button', class: 'row file-row', 'data-key': name, onclick: () => open(name) },
      make('span', { class: 'name' }, title || stem), at ? make('time', { class: 'beside', datetime: at }, day(at)) : '',
      title ? make('span', { class: 'file-name' }, name) : '', wrong ? make('span', { class: 'wrong' }, unquoted(wrong)) : '');
  }

  // What a rig gains comes a little later, or as soon as something is looked for: the first figure does not wait for it.
  let asked = false;
  async function gains() {
    if (asked) return;
    asked = true;
    const told = await ask('shelf').catch(() => ({ rigs: [] }));
    const gain = new Map(told.rigs.map((each) => [each.name, each.gain]));
    for (const rig of rigs) rig.gain = gain.get(rig.name);
    if (search.value) paint();
    for (const each of list.querySelectorAll('.rig-card[data-rig]:not(.nothing)')) each.querySelector('.gain').textContent = gain.get(each.dataset.rig) || '';
  }
  setTimeout(gains, LATER_MS);
  search.addEventListener('focus', gains);

  search.addEventListener('input', paint);
  paintFiles(files);
  paint();
  return { paint, files: paintFiles, focus: () => search.focus() };
}
