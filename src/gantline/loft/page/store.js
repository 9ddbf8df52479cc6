// What one window knows: the words of the rig, how it is looked at, what is being tried, and the way back.

const JOIN_MS = 900; // keystrokes closer together than this are one step of Undo

export class Store extends EventTarget {
  constructor() {
    super();
    this.past = [];
    this.future = [];
    this.beside = beside(this);
    this.open({ text: '', name: '' });
  }

  // A rig taken up: the way back begins anew unless `words` say which step brought it.
  open({ text, name, script = '', view = 'labelled', way = 'ideal' }) {
    Object.assign(this, { text, name, script, view, way, method: null, step: null, whatIf: new Map(), stepView: null, hand: null });
    this.past.length = this.future.length = 0;
    this.tell('opened');
  }

  tell(what, detail = {}) { this.dispatchEvent(new CustomEvent(what, { detail })); }

  // The whole text replaced. `words` name the step; `undone` says it taken back; `says` is said now (`whole`: with what came of it).
  // Steps with the same `join` soon after each other are one. In *Earlier* it is called `kept`, and is one with what is
  // kept before it under the same `group`.
  write(text, words, { join = '', says = '', undone = '', whole = false, group = '', kept = words } = {}) {
    if (text === this.text) return;
    const { script } = this, last = this.past.at(-1), time = performance.now();
    if (join && last && last.join === join && time - last.time < JOIN_MS) {
      Object.assign(last, { after: { text, script }, words, time });
    } else {
      this.past.push({ before: { text: this.text, script }, after: { text, script }, words, undone, join, time });
    }
    this.future.length = 0;
    this.text = text;
    this.tell('written', { words, says, whole, group, kept });
  }

  // The tutor's own words replaced, which stand beside the rig in a script: a step of Undo like any other.
  writeWords(script, words) {
    if (script === this.script) return;
    const { text } = this;
    this.past.push({ before: { text, script: this.script }, after: { text, script }, words, undone: '', join: '' });
    this.future.length = 0;
    this.script = script;
    this.tell('written', { words, stepped: true, kept: words });
  }

  undo() { return this.#step(this.past, this.future, 'before'); }

  redo() { return this.#step(this.future, this.past, 'after'); }

  #step(from, to, side) {
    const step = from.pop();
    if (!step) return null;
    to.push(step);
    step.join = '';
    Object.assign(this, step[side]);
    this.whatIf.clear();
    this.tell('written', { words: step.words, stepped: true, kept: side === 'before' ? `undone: ${step.undone || step.words}` : step.words });
    return step;
  }

  // A value tried (null: put back). Nothing is written.
  try(id, value) {
    if (value === null) this.whatIf.delete(id); else this.whatIf.set(id, value);
    this.tell('tried', { id, value });
  }

  look(changes) {
    Object.assign(this, changes);
    this.tell('looked', changes);
  }
}

// The script beside the rig as a text of its own.
function beside(store) {
  return {
    get name() { return store.name && store.name.replace(/\.rig$/, '.script.md'); },
    get text() { return store.script; },
    write(text, words) { store.writeWords(text, words); },
  };
}

// The least change that turns one text into the other: what stands before and behind it stays untouched.
export function difference(before, after) {
  let from = 0, end = 0;
  const most = Math.min(before.length, after.length);
  while (from < most && before[from] === after[from]) from += 1;
  while (end < most - from && before.at(-1 - end) === after.at(-1 - end)) end += 1;
  return { from, to: before.length - end, insert: after.slice(from, after.length - end) };
}

// The offset of a line and column (both from 1, columns in characters as an editor shows them).
export function offset(text, line, column) {
  let at = 0;
  for (let n = 1; n < line; n += 1) {
    const next = text.indexOf('\n', at);
    if (next < 0) return text.length;
    at = next + 1;
  }
  const points = [...text.slice(at).split('\n', 1)[0]].slice(0, column - 1).join('');
  return at + points.length;
}

export function lineOf(text, at) { return text.slice(0, at).split('\n').length; }
