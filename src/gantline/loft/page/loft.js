// The loft's page: starts, takes rigs from shelf and folder, and joins the parts of the page to each other.
import { Account } from './account.js';
import { Answer } from './answer.js';
import { Card } from './card.js';
import { allow, find, make } from './dom.js';
import { Editing } from './editing.js';
import { Away } from './away.js';
import { Keeper, watch } from './keep.js';
import { Own } from './own.js';
import { Help } from './help.js';
import { Light } from './light.js';
import { Line } from './line.js';
import { Margin } from './margin.js';
import { Mends } from './mends.js';
import { Motion } from './motion.js';
import { Plate } from './plate.js';
import { Present } from './present.js';
import { Rules } from './rules.js';
import { Seeing } from './seeing.js';
import { ask } from './server.js';
import { Sheet } from './sheet.js';
import { Shelf } from './shelf.js';
import { Slip } from './slip.js';
import { Store } from './store.js';
import { Terms } from './terms.js';
import { Tried } from './tried.js';
import { Title } from './title.js';
import { Words } from './wordlist.js';
import { handOut } from './handing.js';
import { ground } from './ground.js';
import { Narrow } from './narrow.js';
import { keys } from './keys.js';

const store = new Store(), light = new Light(), line = Line();
const say = (said, how) => line.say(said, how);

async function start() {
  const { words, files, shelf: rigs, file: first } = JSON.parse(find('begun').textContent); // all came with the page
  const dark = ground(() => shelf.paint());
  find('folder').textContent = `Folder: ${files.folder}`;
  const found = { names: files.files, free: (name) => free(name, files.files) };
  const page = await bench(words, found);
  const shelf = Shelf({
    rigs, files: files.files, dark,
    take: (rig) => page.take({ text: own(rig.text), name: found.free(rig.name), from: rig.name }),
    open: page.open, nothing: async () => page.take({ text: (await ask('edit', { text: '', action: { do: 'nothing' } })).text, name: found.free('new-rig'), from: '', reeve: true }),
  });
  find('to-shelf').addEventListener('click', async () => {
    await page.leave();
    const again = await ask('files').catch(() => files);
    Object.assign(files, again);
    shelf.files(files.files, files.rigs);
    toShelf();
    shelf.focus();
  });
  function toShelf() {
    find('rig-page').hidden = true;
    find('shelf-page').hidden = false;
    document.title = 'Gantline: the loft';
    history.replaceState(null, '', '#');
  }
  Help({ spoken: line.spoken });
  find('open-file').addEventListener('click', () => find('files').querySelector('button')?.focus());
  const asked = new URLSearchParams(location.hash.slice(1)), name = asked.get('file') || files.opened_on;
  const ready = rigs.find((rig) => rig.name === asked.get('shelf'));
  if (name) await page.open(name, first).catch((error) => { toShelf(); find('shelf-says').textContent = error.message; });
  else if (ready) page.take({ text: own(ready.text), name: found.free(ready.name), from: ready.name });
  else toShelf();
  document.documentElement.dataset.ready = 'true';
  if (!find('shelf-page').hidden) shelf.files(files.files, (await ask('files')).rigs);
}

// A ready rig's words without what the shelf says of it at their head.
const own = (text) => text.replace(/^(#.*\n)+\n*/, '');

// A name for a new file that none in the folder has yet. No one is asked for it.
function free(name, taken) {
  let found = `${name}.rig`;
  for (let n = 2; taken.includes(found); n += 1) found = `${name}-${n}.rig`;
  return found;
}

async function bench(words, found) {
  const parts = {};
  const slip = await Slip(find('editor'), {
    typed: (text) => { store.write(text, 'typing', { join: 'typing' }); parts.narrow.next(); },
    named: (said) => { store.past.at(-1).words = said; },
    cursor: (at) => { pointed(parts.seeing.at(at)); parts.narrow.next(); },
    pointed: (at) => pointed(parts.seeing.at(at)),
    entered: () => {}, left: () => light.show(null),
    undo: () => parts.editing.undo(), redo: () => parts.editing.redo(),
    problem: (by) => parts.card.go(by), remedy: () => parts.card.remedy(), answer: () => parts.editing.sayAnswer(),
  }, words);
  const pointed = (found) => light.show(found ? found.ids : null, found ? found.says : '');
  const { keeper, words: beside } = keepers();
  const own = Own({ store, say, away: keeper });
  const editing = Editing({ store, say, keeper, seeing: () => parts.seeing, found });
  const plate = Plate(find('plate'), {
    say, edit: editing.change, light: (ids, keep) => (keep ? light.keep(ids) : light.show(ids, ids ? parts.seeing.says(ids[0]) : '')),
    store, field: editing.value, ghost: slip.ghost, words: line.words,
  });
  const card = Card({ slip, store, say });
  const margin = Margin({
    act: (what) => plate[what]?.(), say,
    look: (changes) => { store.look(changes); },
  });
  const answer = Answer({ copySlip: () => navigator.clipboard?.writeText(store.text) });
  const rules = Rules({ store, edit: editing, light, writeIn: (id) => editing.writeIn(id) });
  const account = Account({
    store, light, choose: (method) => { store.look({ method, step: null }); },
    open: (id, last) => { if (last) say('This is the last step.'); else editing.openStep(id); },
    present: (step) => present.open(step),
    linesOf: (step) => linesOf(step), own: own.write,
  });
  const motion = Motion({ say });
  const tried = Tried({ say, haul: (hand) => { store.hand = hand; seeing.ask({ quiet: true }); } });
  const mends = Mends({
    attempt: (values) => { for (const [id, value] of Object.entries(values)) store.try(id, value); },
    build: editing.mend,
    focus: (part) => (part ? plate.focus(part) : find('line-words').querySelector('.strong')?.focus()),
  });
  const seeing = Seeing({ store, light, line, slip, card, margin, plate, answer, rules, account, motion, tried, mends, keeper });
  Object.assign(parts, { slip, keeper, editing, plate, card, margin, answer, rules, account, motion, seeing });
  const present = Present({ store, say, own: own.refused });
  find('present').addEventListener('click', () => present.open());
  store.addEventListener('opened', () => present.resume());
  const title = Title({ store, edit: editing });
  const sheet = Sheet({ store, say, look: (text) => { if (store.lookingAt !== text) { store.lookingAt = text; seeing.ask({ quiet: true }); } }, goBack: (text, said) => store.write(text, said), handOut: (what, told) => handing(what, told) });
  Words({ slip, words, say });
  Terms([find('formula'), find('steps')], light, () => seeing);
  find('tidy').addEventListener('click', editing.tidy);
  parts.narrow = Narrow({ slip, margin, words, undo: () => editing.undo() });
  keys({ light, sheet, editing, keeper, say, plate });

  store.addEventListener('opened', () => {
    light.letGo(); // nothing is left of the rig before
    account.begin();
    margin.wheels([], '');
    everything({ quiet: true, opened: true });
  });
  store.addEventListener('written', ({ detail }) => {
    slip.set(store.text);
    everything(detail.words === 'typing' ? { typed: true } : detail.stepped ? { quiet: true } : { says: detail.says || sentence(detail.words), whole: detail.whole });
    keeper.changed(detail.words === 'typing' ? '' : detail.kept, detail.group);
    beside.changed(detail.kept);
  });
  store.addEventListener('tried', ({ detail }) => { seeing.ask(detail.says ? { says: detail.says, whole: true } : { dragged: true }); keeper.tell(); });
  store.addEventListener('putBack', () => editing.putBack());
  store.addEventListener('looked', ({ detail }) => {
    if ('method' in detail) seeing.askAccount();
    if ('view' in detail) margin.view(detail.view);
    if ('way' in detail) margin.way(detail.way);
    account.told && account.build();
    seeing.ask({ quiet: true });
  });
  store.addEventListener('writeIn', () => editing.writeIn());

  function everything(why) {
    title.show();
    find('file').textContent = store.name;
    allow(find('undo'), store.past.length ? '' : 'Nothing to undo.');
    allow(find('redo'), store.future.length ? '' : 'Nothing to do again.');
    margin.view(store.view);
    margin.way(store.way);
    seeing.ask(why);
  }

  // The rig is kept in its file, and the tutor's own words in a script beside it.
  function keepers() {
    const away = Away({ say, seen: () => keeper.time, copy, told: () => keeper.tell(), returned: async () => { await keeper.keep(); await words.keep(); return !keeper.clash && !words.clash; } });
    const keeper = Keeper({ doc: store, away, say, line: find('kept'), conflict: find('conflict'), both: () => parts.editing.both(), kept });
    const words = Keeper({ doc: store.beside, away, say, line: find('words-kept'), conflict: find('words-conflict') });
    watch({ store, away, rig: keeper, words });
    return { keeper: Object.assign(keeper, { gone: away.gone, back: away.back, words }), words };
  }

  function copy() { navigator.clipboard?.writeText(store.text).then(() => say('The slip is copied.')); }

  // Once it is kept a rig has a file, and the address says so: a reload takes it up again.
  function kept(name) {
    history.replaceState(null, '', `#file=${encodeURIComponent(name)}`);
    if (!found.names.includes(name)) found.names.push(name);
  }

  async function handing(what, told) {
    const theme = document.documentElement.dataset.ground === 'dark' ? 'dark' : 'light';
    const tell = (said) => { told.textContent = said; };
    tell('Handing out.');
    try {
      const name = await handOut({ text: store.text, script: store.script, what_if: Object.fromEntries(store.whatIf), what, name: store.name.replace(/\.rig$/, ''), view: store.view, theme }, tell);
      tell(`Handed out: ${name}.`);
    } catch (error) { tell(error.message); }
  }

  function show() {
    find('shelf-page').hidden = true;
    find('rig-page').hidden = false;
  }

  return {
    take({ text, name, from, reeve }) {
      show();
      history.replaceState(null, '', from ? `#shelf=${from}` : '#');
      slip.set(text);
      keeper.open(null);
      beside.open(null);
      store.open({ text, name });
      find('title').focus();
      if (reeve) plate.reeve?.();
    },
    async open(name, first) {
      const file = first?.name === name ? first : await ask(`file?name=${encodeURIComponent(name)}`);
      show();
      history.replaceState(null, '', `#file=${encodeURIComponent(name)}`);
      keeper.open(file);
      beside.open(file.script);
      slip.set(file.text);
      store.open({ text: file.text, name, script: file.script?.text });
      held(keeper, store, file.text);
      held(beside, store.beside, file.script?.text ?? '');
      find('title').focus();
    },
    leave: async () => { await keeper.keep(); await beside.keep(); },
  };
}

// What an earlier window could not keep any more is taken up again: a step of Undo.
function held(keeper, doc, text) {
  const draft = keeper.draft(doc.name);
  if (!draft || draft.text === text) return;
  keeper.restore(draft);
  doc.write(draft.text, 'words this browser still held');
}

function linesOf(step) {
  if (!step.lines.length) return '';
  const [last, ...rest] = [...step.lines].reverse();
  return rest.length ? `From lines ${rest.reverse().join(', ')} and ${last}.` : `From line ${last}.`;
}

const sentence = (words) => `${words[0].toUpperCase()}${words.slice(1)}.`;

start().catch((error) => {
  document.body.append(make('p', { class: 'notice gone', role: 'alert' }, error.message));
});
