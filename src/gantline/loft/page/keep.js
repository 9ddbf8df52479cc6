// Keeping: a second after the last change the words are on disk; until then this browser holds them too.
import { make, word } from './dom.js';
import { ask, Gone } from './server.js';
import { difference, lineOf } from './store.js';

const REST_MS = 1000, LOOK_MS = 2000, STALE_MS = 15000;
const sentence = (words) => words[0].toUpperCase() + words.slice(1);
const clock = (date = new Date()) => date.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
export const me = sessionStorage.getItem('gantline window') || crypto.randomUUID();
sessionStorage.setItem('gantline window', me);

// One file kept. `doc` has its `name` and `text`, and takes another text with `write`; `line` says how it stands, and
// `conflict` shows both texts where they differ; `both` keeps both, where that can be; `kept` hears its name.
export function Keeper({ doc, away, say, line, conflict, both = null, kept: noted = () => {} }) {
  let base = null, etag = '', time = '', timer = 0, busy = false, words = '', group = null, problems = 0, clash = false, touched = false;

  const draftKey = () => `gantline draft ${doc.name} ${me}`;
  const dirty = () => doc.name && touched && doc.text !== (base ?? ''); // a ready rig that is only looked at makes no file

  function tell() {
    line.textContent = standing();
    line.toggleAttribute('data-well', line.textContent === `Kept ${time}`);
  }

  function standing() {
    const kept = time ? `Kept ${time}` : '';
    if (away.now || clash) return time ? `Not kept since ${time}` : 'Not kept yet';
    if (busy || dirty()) return 'Keeping';
    if (doc.whatIf?.size) return kept ? `${kept}; trying, nothing written` : 'Trying, nothing written';
    return kept && problems ? `${kept}, with ${problems === 1 ? 'one problem' : `${problems} problems`}` : kept;
  }

  // A file taken up, as it stands on disk; or new words that no file has yet.
  function open(file) {
    base = file ? file.text : null;
    etag = file ? file.etag : '';
    time = file ? clock() : '';
    clash = touched = false;
    conflict.hidden = true;
    words = '';
    group = null;
    tell();
  }

  // `joined` names the group of changes that this one belongs to, in *Earlier*.
  function changed(said, joined = '') {
    words = said || words;
    group = group === null || group === joined ? joined : '';
    touched = true;
    if (!doc.name || !dirty()) { tell(); return; }
    clearTimeout(timer);
    timer = setTimeout(keep, REST_MS);
    try {
      localStorage.setItem(draftKey(), JSON.stringify({ text: doc.text, base, at: Date.now() }));
    } catch { /* the browser's store is full or forbidden: the file is kept all the same */ }
    tell();
  }

  async function keep() {
    clearTimeout(timer);
    if (busy || clash || !dirty()) { tell(); return; }
    busy = true;
    tell();
    const { text, name } = doc;
    try {
      const kept = await ask('file', { name, text, base, says: sentence(words || typed()), group: group ?? '' }, { method: 'PUT' });
      if (name === doc.name) settled(text, kept.etag);
    } catch (error) {
      if (error.status === 409) { if (name === doc.name && text === doc.text) differs(error.answer); } // else what was typed meanwhile is asked for next
      else if (error instanceof Gone) away.gone();
      else if (error.status === 401) away.gone(undefined, error.message);
      else say(error.message);
    }
    busy = false;
    if (dirty() && !away.now && !clash) timer = setTimeout(keep, REST_MS);
    tell();
  }

  const typed = () => `typed on line ${lineOf(doc.text, difference(base || '', doc.text).from)}`;

  function settled(text, mark) {
    base = text;
    etag = mark;
    time = clock();
    words = '';
    group = null;
    noted(doc.name);
    if (doc.text === text) localStorage.removeItem(draftKey());
  }

  // Somebody else wrote into the file. Where different lines changed both are taken; else both are shown.
  function differs(answer) {
    if (answer.merged !== null && answer.merged !== undefined) {
      base = answer.theirs;
      etag = answer.etag;
      doc.write(answer.merged, 'lines from another window');
      const lines = answer.lines.map((each) => each.line ?? each);
      say(lines.length === 1 ? `Line ${lines[0]} came from another window.` : `Lines ${lines.join(', ')} came from another window.`);
      return;
    }
    clash = true;
    say(answer.says);
    const choose = (act) => () => { clash = false; conflict.hidden = true; act(); tell(); };
    const mine = choose(() => { base = answer.theirs; changed('kept mine'); });
    const other = choose(() => { base = answer.theirs; etag = answer.etag; doc.write(answer.theirs ?? '', 'the other words taken'); });
    conflict.className = 'conflict';
    conflict.replaceChildren(
      make('div', { class: 'notice' }, make('b', {}, answer.says.split('. ')[0], '.'), ' Nothing has been overwritten.'),
      shown('Yours', doc.text, answer.theirs ?? ''), shown('On disk', answer.theirs ?? '', doc.text),
      make('div', { class: 'choices' }, word('Keep mine', mine), word('Take the other', other), both ? word('Keep both files', choose(both)) : ''));
    conflict.hidden = false;
  }

  function shown(title, text, against) {
    const { from, insert } = difference(against, text);
    return make('div', {}, make('pre', { tabindex: 0, 'aria-label': `${title}, the words` }, make('b', {}, `${title}\n`), text.slice(Math.max(0, text.lastIndexOf('\n', from - 1) + 1), from), make('span', { class: 'lit' }, insert || ' '), text.slice(from + insert.length).split('\n', 1)[0]));
  }

  // The file as it stands on disk now, null where there is none. While nothing is unkept its words are simply taken.
  function found(file) {
    if (busy || clash || (file?.etag ?? '') === etag) return;
    if (dirty()) { keep(); return; }
    base = file ? file.text : null;
    etag = file ? file.etag : '';
    time = clock();
    doc.write(file ? file.text : '', `${doc.name} was changed elsewhere`);
    say(`${doc.name} was changed elsewhere. Its words are taken; Undo brings yours back.`);
  }

  // What an earlier window of this browser could not keep any more, if there is such.
  function draft(name) {
    const held = [];
    for (const key of Object.keys(localStorage)) {
      if (key.slice(0, key.lastIndexOf(' ')) !== `gantline draft ${name}`) continue;
      const kept = JSON.parse(localStorage.getItem(key)), own = key.endsWith(me);
      if (own || Date.now() - kept.at > STALE_MS) held.push({ ...kept, key });
    }
    const newest = held.sort((a, b) => b.at - a.at)[0];
    if (newest) localStorage.removeItem(newest.key);
    return newest || null;
  }

  addEventListener('pagehide', () => { if (dirty()) keep(); });
  addEventListener('visibilitychange', () => { if (document.hidden) keep(); });
  return {
    open, changed, keep, tell, found, draft, restore: (kept) => { base = kept.base; },
    asNew() { base = null; etag = ''; return keep(); }, problems(count) { problems = count; tell(); },
    get onDisk() { return Boolean(etag); }, get time() { return time; }, get clash() { return clash; },
  };
}

// Looks whether another program changed a rig or the words beside it; and learns of a server that has gone.
export function watch({ store, away, rig, words }) {
  async function look() {
    if (!store.name || !rig.onDisk || document.hidden) return;
    try {
      const { name } = store, file = await ask(`file?name=${encodeURIComponent(name)}`);
      if (away.now) away.back();
      if (name !== store.name) return;
      rig.found(file);
      words.found(file.script);
    } catch (error) {
      if (error instanceof Gone) away.gone();
    }
  }
  setInterval(look, LOOK_MS);
  addEventListener('visibilitychange', look);
}
