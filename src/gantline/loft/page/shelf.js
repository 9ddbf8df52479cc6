// The shelf: ready rigs with what they teach, searched by it; the files of the folder; the way to begin from nothing.
import { allow, draw, find, make, roving } from './dom.js';

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
const speaks = (rig) => `${rig.title} ${rig.teaches} ${rig.name.replace(/-/g, ' ')}`.toLowerCase();
const fits = (rig, test) => (typeof test === 'function' ? test() : test.test(`${rig.name} ${rig.teaches}`.toLowerCase()));

// Rigs stand in the order of what they teach, the easy before the hard.
const rank = (rig) => (TOPICS.findIndex(([, test], n) => n && fits(rig, test)) + TOPICS.length) % TOPICS.length;

const NEAR = '300px';

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
    const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
    const test = TOPICS.find(([name]) => name === topic)[1];
    const found = rigs.filter((rig) => fits(rig, test) && words.every((each) => speaks(rig).includes(each)));
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
      make('span', { class: 'picture' }, picture), make('b', {}, rig.title), make('i', {}, rig.teaches)));
  }

  function fromNothing() {
    return make('li', {}, make('button', { type: 'button', class: 'rig-card nothing', 'data-rig': '', onclick: nothing },
      make('span', { class: 'picture' }, draw('svg', { viewBox: '0 0 120 160', 'aria-hidden': 'true' }, draw('path', { class: 'beam', d: 'M10 12h100' }), draw('path', { d: 'M60 13v44M60 39a18 18 0 1 1 -.1 0zM42 57v65M78 57v40M24 122h36v34h-36z' }))), make('b', {}, 'From nothing'), make('i', {}, 'Reeve it by pointing')));
  }

  function paintFiles(names) {
    find('files').replaceChildren(...names.map((name) => make('li', {}, make('button', { type: 'button', class: 'row', onclick: () => open(name) }, make('span', { class: 'name' }, name.replace(/\.rig$/, ''))))));
    find('folder-head').hidden = !names.length;
    allow(find('open-file'), names.length ? '' : 'There is no rig in this folder yet.');
  }

  search.addEventListener('input', paint);
  paintFiles(files);
  paint();
  return { paint, files: paintFiles, focus: () => search.focus() };
}
