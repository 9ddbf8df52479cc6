// Keeping: a second after the last change the words are on disk; until then this browser holds them too.
import { find, make, word } from './dom.js';
import { ask, Gone } from './server.js';
import { difference, lineOf } from './store.js';

const REST_MS = 1000, LOOK_MS = 2000, RETRY_S = 4, STALE_MS = 15000;
const sentence = (words) => words[0].toUpperCase() + words.slice(1);
const GONE = 'The loft has stopped answering.';
const clock = (date = new Date()) => date.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });

export function Keeper({ store, say, both, kept: noted }) {
  const line = find('kept'), notice = find('notice'), conflict = find('conflict');
  const me = sessionStorage.getItem('gantline window') || crypto.randomUUID();
  sessionStorage.setItem('gantline window', me);
  let base = null, etag = '', time = '', timer = 0, busy = false, words = '', problems = 0, away = 0, retry = 0, clash = false, touched = false;

  const draftKey = () => `gantline draft ${store.name} ${me}`;
  const dirty = () => store.name && touched && store.text !== base; // a ready rig that is only looked at makes no file

  function tell() {
    const kept = time ? `Kept ${time}` : '';
    if (away || clash) line.textContent = time ? `Not kept since ${time}` : 'Not kept yet';
    else if (busy || dirty()) line.textContent = 'Keeping';
    else if (store.whatIf.size) line.textContent = kept ? `${kept}; trying, nothing written` : 'Trying, nothing written';
    else line.textContent = kept && problems ? `${kept}, with ${problems === 1 ? 'one problem' : `${problems} problems`}` : kept;
  }

  // A file taken up, as it stands on disk; or new words that no file has yet.
  function open(file) {
    base = file ? file.text : null;
    etag = file ? file.etag : '';
    time = file ? clock() : '';
    clash = touched = false;
    conflict.hidden = true;
    words = '';
    tell();
  }

  function changed(said) {
    words = said || words;
    touched = true;
    if (!store.name) return;
    localStorage.setItem(draftKey(), JSON.stringify({ text: store.text, base, at: Date.now() }));
    clearTimeout(timer);
    timer = setTimeout(keep, REST_MS);
    tell();
  }

  async function keep() {
    clearTimeout(timer);
    if (busy || clash || !dirty()) { tell(); return; }
    busy = true;
    tell();
    const { text, name } = store;
    try {
      const kept = await ask('file', { name, text, base, says: sentence(words || typed()) }, { method: 'PUT' });
      if (name === store.name) settled(text, kept.etag);
    } catch (error) {
      if (error.status === 409) differs(error.answer);
      else if (error instanceof Gone) gone();
      else if (error.status === 401) gone(again, error.message);
      else say(error.message);
    }
    busy = false;
    if (dirty() && !away && !clash) timer = setTimeout(keep, REST_MS);
    tell();
  }

  const typed = () => `typed on line ${lineOf(store.text, difference(base || '', store.text).from)}`;

  function settled(text, mark) {
    base = text;
    etag = mark;
    time = clock();
    words = '';
    noted(store.name);
    if (store.text === text) localStorage.removeItem(draftKey());
  }

  // Somebody else wrote into the file. Where different lines changed both are taken; else both are shown.
  function differs(answer) {
    if (answer.merged !== null && answer.merged !== undefined) {
      base = answer.theirs;
      etag = answer.etag;
      store.write(answer.merged, 'lines from another window');
      const lines = answer.lines.map((each) => each.line ?? each);
      say(lines.length === 1 ? `Line ${lines[0]} came from another window.` : `Lines ${lines.join(', ')} came from another window.`);
      return;
    }
    clash = true;
    say(answer.says);
    const choose = (act) => () => { clash = false; conflict.hidden = true; act(); tell(); };
    const mine = choose(() => { base = answer.theirs; changed('kept mine'); });
    const other = choose(() => { base = answer.theirs; etag = answer.etag; store.write(answer.theirs ?? '', 'the other words taken'); });
    const two = choose(both);
    conflict.className = 'conflict';
    conflict.replaceChildren(
      make('div', { class: 'notice' }, make('b', {}, answer.says.split('. ')[0], '.'), ' Nothing has been overwritten.'),
      shown('Yours', store.text, answer.theirs ?? ''), shown('On disk', answer.theirs ?? '', store.text),
      make('div', { class: 'choices' }, word('Keep mine', mine), word('Take the other', other), word('Keep both files', two)));
    conflict.hidden = false;
  }

  function shown(title, text, against) {
    const { from, insert } = difference(against, text);
    return make('div', {}, make('pre', { tabindex: 0, 'aria-label': `${title}, the words` }, make('b', {}, `${title}\n`), text.slice(Math.max(0, text.lastIndexOf('\n', from - 1) + 1), from), make('span', { class: 'lit' }, insert || ' '), text.slice(from + insert.length).split('\n', 1)[0]));
  }

  // Looks whether another program changed the file. While nothing is unkept its words are simply taken.
  async function lookAtDisk() {
    if (!store.name || !etag || busy || clash || document.hidden) return;
    try {
      const file = await ask(`file?name=${encodeURIComponent(store.name)}`);
      if (away) back();
      if (file.etag === etag || busy) return;
      if (dirty()) { keep(); return; }
      base = file.text;
      etag = file.etag;
      time = clock();
      store.write(file.text, `${store.name} was changed elsewhere`);
      say(`${store.name} was changed elsewhere. Its words are taken; Undo brings yours back.`);
    } catch (error) {
      if (error instanceof Gone) gone();
    }
  }

  let again = () => {};
  let why = GONE;
  function gone(then = again, said = GONE) {
    why = said;
    again = then;
    if (!away) say(`${why} Your words are safe in this window.`);
    away = RETRY_S;
    tell();
    paintGone();
    clearInterval(retry);
    retry = setInterval(() => {
      away -= 1;
      if (away <= 0) tryNow(); else paintGone();
    }, 1000);
  }

  function paintGone() {
    const left = make('span', { class: 'soft', 'data-left': true }, `next try in ${away} s`);
    if (!notice.hidden) { notice.querySelector('[data-left]').replaceWith(left); return; }
    notice.className = 'notice gone';
    notice.hidden = false;
    notice.replaceChildren(
      make('p', {}, make('b', {}, why), ` Your words are safe in this window.${time ? ` The plate and the answer are those of ${clock()}.` : ''} Trying again by itself.`),
      make('div', { class: 'choices' }, word('Try now', tryNow), word('Copy the slip', copy), left));
  }

  async function tryNow() {
    clearInterval(retry);
    away = RETRY_S;
    try {
      await ask('files');
      back();
      again();
    } catch (error) {
      gone(again, error instanceof Gone ? GONE : error.message);
    }
  }

  function back() {
    if (!away) return;
    clearInterval(retry);
    away = 0;
    notice.hidden = true;
    keep().then(() => { if (!clash) say('Back again. Everything is kept.'); });
  }

  function copy() { navigator.clipboard?.writeText(store.text).then(() => say('The slip is copied.')); }

  // What an earlier window of this browser could not keep any more, if there is such.
  function draft(name) {
    const found = [];
    for (const key of Object.keys(localStorage)) {
      if (!key.startsWith(`gantline draft ${name} `)) continue;
      const kept = JSON.parse(localStorage.getItem(key)), own = key.endsWith(me);
      if (own || Date.now() - kept.at > STALE_MS) found.push({ ...kept, key });
    }
    const newest = found.sort((a, b) => b.at - a.at)[0];
    if (newest) localStorage.removeItem(newest.key);
    return newest || null;
  }

  setInterval(lookAtDisk, LOOK_MS);
  addEventListener('pagehide', () => { if (dirty()) keep(); });
  addEventListener('visibilitychange', () => { if (document.hidden) keep(); else lookAtDisk(); });
  return { open, changed, keep, gone, back, copy, draft, tell, restore: (kept) => { base = kept.base; }, asNew() { base = null; etag = ''; return keep(); }, problems(count) { problems = count; tell(); } };
}
