// Changes of the words that come from the page: each one step of Undo, touching only the characters concerned.
import { ask } from './server.js';
import { offset } from './store.js';

export function Editing({ store, slip, say, keeper, seeing }) {
  const spans = (one) => one.all.map((each) => ({ from: offset(store.text, each.line, each.column), to: offset(store.text, each.line, each.column + each.length) }));

  // The text with every place of a rule's givens replaced.
  function replaced(one, value) {
    let text = store.text;
    for (const { from, to } of spans(one).sort((a, b) => b.from - a.from)) text = text.slice(0, from) + valued(text.slice(from, to), value) + text.slice(to);
    return text;
  }

  return {
    // A typed value. Gives the problem that stands against it, or null once it is written.
    async value(one, value) {
      const text = replaced(one, value), given = await ask('see', { text, what_if: {}, view: 'bare' }).catch(() => ({ problems: [] }));
      const rows = one.all.map((each) => each.line), against = given.problems.find((each) => rows.includes(each.line));
      if (against) return against;
      for (const id of one.ids) store.whatIf.delete(id);
      store.write(text, `${lower(one.name)} ${value.replace(one.unit, one.aloud)}`);
      return null;
    },
    // Changes of the text made on the plate: [{from, to, insert}], in the text as it is now.
    change(changes, words) {
      let text = store.text;
      for (const { from, to, insert } of [...changes].sort((a, b) => b.from - a.from)) text = text.slice(0, from) + insert + text.slice(to);
      store.write(text, words);
    },
    // What is being tried becomes what is written: one step of Undo.
    writeIn(id) {
      const all = groupsOf(seeing(), store, id);
      if (!all.length) return;
      let text = store.text;
      const changes = all.flatMap((one) => spans(one).map((span) => ({ ...span, value: store.whatIf.get(one.ids[0]) })));
      for (const { from, to, value } of changes.sort((a, b) => b.from - a.from)) text = text.slice(0, from) + valued(text.slice(from, to), value) + text.slice(to);
      const tried = new Map(store.whatIf);
      for (const one of all) for (const each of one.ids) store.whatIf.delete(each);
      store.write(text, 'written in');
      store.past.at(-1).tried = tried;
    },
    undo() {
      const step = store.undo();
      say(step ? `Undone: ${step.words}.` : 'Nothing to undo.');
    },
    redo() {
      const step = store.redo();
      say(step ? `Done again: ${step.words}.` : 'Nothing to do again.');
    },
    sayAnswer() {
      keeper.keep();
      say(seeing().answerLine());
    },
    openStep(id) {
      const told = seeing().told, step = id && told.steps.find((each) => each.id === id);
      store.look({ step: id });
      if (step) say([`Step ${told.steps.indexOf(step) + 1} of ${told.steps.length}, ${step.idea}.`, `${step.spoken}${step.formula_spoken ? ` ${step.formula_spoken}.` : ''}`]);
    },
    both(text) { keeper.changed(); return text; },
    handOut: () => {},
  };
}

// The value a place shall have: a letter of one's own stays where it was given.
function valued(written, value) {
  const own = written.match(/^[A-Za-z]\w*\s*=\s*/);
  return own && !/^[A-Za-z]/.test(value) ? own[0] + value : value;
}

function groupsOf(seeing, store, id) {
  return seeing.groups().filter((one) => store.whatIf.has(one.id) && (!id || one.id === id));
}

function lower(text) { return text[0].toLowerCase() + text.slice(1); }
