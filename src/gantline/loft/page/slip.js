// The slip: the rig's words in a code editor. It knows text and places; what they mean it is told.
import { following, language } from './notation.js';
import { difference } from './store.js';

// The editor stands in a shadow root: its style sheets are then adopted ones, which a strict content policy allows.
export async function Slip(element, hear, words) {
  let cm;
  try {
    cm = await import('../assets/codemirror.js');
  } catch {
    const { PlainSlip } = await import('./slip-plain.js');
    return PlainSlip(element, hear);
  }
  const root = element.attachShadow({ mode: 'open', delegatesFocus: true });
  const marks = layers(cm);
  const view = new cm.EditorView({ root, parent: root, state: cm.EditorState.create({ doc: '', extensions: extensions(cm, hear, words, marks) }) });
  hearPointer(view, hear);
  let tail = '\n'; // the line end that closes a file is not shown as a line of its own
  const heard = hear.typed;
  hear.typed = (text) => heard(text ? text + tail : '');

  // Marks are told to the editor only where there are some, or were.
  const marked = {};
  function mark(kind, value, some) {
    if (some || marked[kind]) view.dispatch({ effects: marks[kind].of(value) });
    marked[kind] = Boolean(some);
  }

  return {
    plain: false,
    get text() { return view.state.doc.length ? view.state.doc.toString() + tail : ''; },
    set(text) {
      tail = text.endsWith('\n') || !text ? '\n' : '';
      const change = difference(view.state.doc.toString(), text.slice(0, text.length - (text ? tail.length : 0)));
      if (change.from !== change.to || change.insert) view.dispatch({ changes: change, annotations: marks.told.of(true) });
    },
    replace({ from, to, insert }, words) {
      const end = view.state.doc.length;
      view.dispatch({ changes: { from: Math.min(from, end), to: Math.min(to, end), insert }, selection: { anchor: Math.min(from, end) + insert.length }, userEvent: 'input', scrollIntoView: true });
      hear.named(words);
    },
    problems(list) { mark('problems', list, list.length); },
    card(room) { mark('gap', room, room); },
    light(ranges) { mark('lit', byLine(view.state.doc, ranges), ranges.length); },
    tries(list) { mark('tries', list, list.length); },
    ghost(at, text) { mark('ghost', text ? { at, text } : null, text); },
    below(at) { return view.lineBlockAt(Math.min(at, view.state.doc.length)).bottom + view.documentPadding.top; },
    go(at, focus = true) {
      view.dispatch({ selection: { anchor: Math.min(at, view.state.doc.length) }, scrollIntoView: true });
      if (focus) view.focus();
    },
    shown(at) {
      const box = element.parentElement.getBoundingClientRect(), place = view.coordsAtPos(Math.min(at, view.state.doc.length));
      return !place || (place.top >= box.top && place.bottom <= box.bottom);
    },
    get at() { return view.state.selection.main.head; },
    get focused() { return view.hasFocus; },
    focus() { view.focus(); },
  };
}

// A stretch over several lines as one a line, without the blanks that line them up.
function byLine(doc, ranges) {
  return ranges.flatMap(({ from, to }) => {
    const found = [], end = Math.min(to, doc.length);
    for (let line = doc.lineAt(Math.min(from, doc.length)); line.from <= end; line = doc.line(line.number + 1)) {
      const start = Math.max(from, line.from), text = doc.sliceString(start, Math.min(end, line.to));
      found.push({ from: start + text.search(/\S|$/), to: start + text.trimEnd().length });
      if (line.number === doc.lines) break;
    }
    return found;
  });
}

// Everything that is shown on the text without being in it: problems, lit words, values tried, words to come.
function layers(cm) {
  const effect = () => cm.StateEffect.define();
  const marks = { told: cm.Annotation.define(), problems: effect(), gap: effect(), lit: effect(), tries: effect(), ghost: effect() };
  const words = (text, kind) => cm.Decoration.widget({ side: 1, widget: new (widget(cm))(text, kind) });
  const range = (state, at, to) => [Math.min(at, state.doc.length), Math.min(to, state.doc.length)];
  const field = (kind, decorate) => cm.StateField.define({
    create: () => ({ value: null, set: cm.Decoration.none }),
    update(old, change) {
      const given = change.effects.find((each) => each.is(marks[kind]));
      if (given) return { value: given.value, set: cm.Decoration.set(decorate(change.state, given.value), true) };
      return change.docChanged ? { ...old, set: old.set.map(change.changes) } : old;
    },
    provide: (its) => cm.EditorView.decorations.from(its, (own) => own.set),
  });
  const under = (klass) => (state, list) => (list || []).map((each) => range(state, each.from, each.to))
    .filter(([from, to]) => from < to).map(([from, to]) => cm.Decoration.mark({ class: klass }).range(from, to));
  marks.fields = [
    field('lit', under('lit')),
    field('problems', under('wrong')),
    field('tries', (state, list) => list.map((each) => words(each.text, 'try').range(state.doc.lineAt(range(state, each.at, 0)[0]).to))),
    field('ghost', (state, given) => (given ? [words(given.text, 'ghost').range(range(state, given.at, 0)[0])] : [])),
  ];
  marks.gapField = gap(cm, marks);
  return marks;
}

function widget(cm) {
  return class extends cm.WidgetType {
    constructor(text, kind) { super(); this.text = text; this.kind = kind; }
    eq(other) { return other.text === this.text && other.kind === this.kind; }
    toDOM() {
      const span = document.createElement('span');
      span.className = this.kind;
      span.textContent = this.text;
      return span;
    }
  };
}

// Room under the line of the open problem, for the card that lies over it.
function gap(cm, marks) {
  class Room extends cm.WidgetType {
    constructor(height) { super(); this.height = height; }
    eq(other) { return other.height === this.height; }
    get estimatedHeight() { return this.height; }
    toDOM() {
      const room = document.createElement('div');
      room.style.height = `${this.height}px`;
      return room;
    }
  }
  return cm.StateField.define({
    create: () => cm.Decoration.none,
    update(old, change) {
      const given = change.effects.find((each) => each.is(marks.gap));
      if (!given) return change.docChanged ? old.map(change.changes) : old;
      if (!given.value) return cm.Decoration.none;
      const at = change.state.doc.lineAt(Math.min(given.value.at, change.state.doc.length)).to;
      return cm.Decoration.set([cm.Decoration.widget({ widget: new Room(given.value.height), block: true, side: 2 }).range(at)]);
    },
    provide: (its) => cm.EditorView.decorations.from(its),
  });
}

function extensions(cm, hear, words, marks) {
  const { EditorView, EditorState, keymap } = cm;
  const changed = EditorView.updateListener.of((update) => {
    const told = update.transactions.some((each) => each.annotation(marks.told));
    if (update.docChanged && !told) hear.typed(update.state.doc.toString());
    if (update.selectionSet && !update.docChanged && update.view.hasFocus) hear.cursor(update.state.selection.main.head);
  });
  const key = (name, run) => ({ key: name, run: () => { run(); return true; } });
  return [
    cm.lineNumbers(), problemLines(cm, marks), ...marks.fields, marks.gapField,
    cm.drawSelection(), EditorView.lineWrapping,
    EditorState.tabSize.of(4), EditorState.allowMultipleSelections.of(false),
    cm.StreamLanguage.define(language(words)), cm.syntaxHighlighting(colours(cm)),
    cm.autocompletion({ override: [completions(words)], icons: false, activateOnTyping: true, aboveCursor: false }),
    keymap.of([
      key('Mod-z', hear.undo), key('Mod-Shift-z', hear.redo), key('Mod-y', hear.redo),
      key('F8', () => hear.problem(1)), key('Shift-F8', () => hear.problem(-1)), key('Alt-Enter', hear.remedy),
      { key: 'Mod-Enter', run: () => { hear.answer(); return true; } },
      ...cm.defaultKeymap.filter((each) => !['Mod-Enter', 'Mod-/', 'Alt-Enter'].includes(each.key)),
    ]),
    EditorView.contentAttributes.of({ 'aria-label': 'Slip: the rig in words', spellcheck: 'false', autocapitalize: 'off', autocorrect: 'off' }),
    changed, theme(cm),
    EditorView.domEventHandlers({ blur: () => hear.left(), focus: () => hear.entered() }),
  ];
}

// A problem's line carries its mark in the gutter too: colour is never the only sign.
function problemLines(cm, marks) {
  const mark = new (class extends cm.GutterMarker { elementClass = 'wrong-line'; })();
  return cm.lineNumberMarkers.compute(marks.fields.slice(1, 2), (state) => {
    const found = [];
    state.field(marks.fields[1]).set.between(0, state.doc.length, (from) => { found.push(state.doc.lineAt(from).from); });
    return cm.RangeSet.of([...new Set(found)].sort((a, b) => a - b).map((at) => mark.range(at)));
  });
}

function completions(words) {
  return (context) => {
    const found = context.matchBefore(/[\w.%/²-]*/);
    if (!context.explicit && (!found || found.from === found.to)) return null;
    const options = following(context.state.doc.sliceString(0, context.pos), context.state.doc.toString(), words);
    return options.length ? { from: found.from, options, validFor: /^[\w.%/²-]*$/ } : null;
  };
}

function hearPointer(view, hear) {
  let last = null;
  const at = (event) => {
    const place = view.posAtCoords({ x: event.clientX, y: event.clientY });
    if (place !== last) { last = place; hear.pointed(place); }
  };
  view.contentDOM.addEventListener('pointermove', (event) => { if (event.pointerType === 'mouse' && !event.buttons) at(event); });
  view.contentDOM.addEventListener('pointerleave', () => { if (last !== null) { last = null; hear.pointed(null); } });
}

function colours(cm) {
  const { tags } = cm;
  return cm.HighlightStyle.define([
    { tag: tags.keyword, fontWeight: '700' },
    { tag: tags.variableName, color: 'var(--name)' },
    { tag: tags.comment, color: 'var(--soft)' },
  ]);
}

function theme(cm) {
  const lit = { background: 'var(--chalk)', boxShadow: '0 2px 0 var(--ink)', borderRadius: '3px 3px 0 0' };
  return cm.EditorView.theme({
    '&': { background: 'none', color: 'var(--ink)', fontSize: 'var(--slip-size,0.90625rem)' },
    '&.cm-focused': { outline: '3px solid var(--ink)', outlineOffset: '-1px', borderRadius: '3px' },
    '.cm-scroller': { fontFamily: "'Courier Prime',monospace", lineHeight: 'var(--slip-line,1.4375rem)', overflow: 'visible' },
    '.cm-content': { padding: '2px 0', caretColor: 'var(--ink)' },
    '.cm-line': { padding: '0 0.25rem 0 calc(0.5rem + 2ch)', textIndent: '-2ch' },
    '.cm-cursor': { borderLeft: '2px solid var(--ink)' },
    '.cm-gutters': { background: 'none', border: '0', color: 'var(--soft)', minWidth: '2.125rem', fontSize: '0.8125rem' },
    '.cm-lineNumbers .cm-gutterElement': { minWidth: '1.75rem', padding: '0 0.25rem 0 0', fontFamily: "'STIX Two Text',serif" },
    '.wrong-line': { color: 'var(--red)', fontWeight: '600' },
    '.wrong-line::after': { content: '" !"' },
    '&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground': { background: 'var(--selected)' },
    '.lit, .lit *': { color: 'var(--ink) !important' },
    '.lit': lit,
    '.wrong': { textDecoration: 'underline double var(--red) 1.5px', textUnderlineOffset: '0.25rem' },
    '.try': { font: "600 1rem 'STIX Two Text',serif", color: 'var(--ochre)', paddingLeft: '1.25rem' },
    '.ghost': { color: 'var(--soft)', borderBottom: '1px dashed var(--edge)' },
    '.cm-tooltip': { background: 'var(--paper)', border: '1px solid var(--ink)', borderRadius: '3px' },
    '.cm-tooltip.cm-tooltip-autocomplete > ul': { fontFamily: "'Courier Prime',monospace", fontSize: '0.875rem', maxHeight: '14em' },
    '.cm-tooltip.cm-tooltip-autocomplete > ul > li': { padding: '3px 0.5rem', lineHeight: '1.25rem' },
    '.cm-tooltip-autocomplete ul li[aria-selected]': { background: 'var(--ink)', color: 'var(--paper)' },
    '.cm-completionMatchedText': { textDecoration: 'none', fontWeight: '700' },
    '.cm-completionDetail': { fontFamily: "'STIX Two Text',serif", fontStyle: 'italic' },
  });
}
