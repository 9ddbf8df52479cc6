// Changes of the words that come from the page: made by the server's own editing, each one step of Undo.
import { unquoted } from './dom.js';
import { ask } from './server.js';

export function Editing({ store, say, keeper, seeing, found }) {
  // One wish: {do: ..., ...}. Gives what came of it; the words change only where it could be met.
  async function make(action, undone = '') {
    const done = await ask('edit', { text: store.text, action }).catch((error) => ({ refused: error.message, problems: [] }));
    if (!done.refused) store.write(done.text, done.words, { says: done.says, undone, whole: true });
    return done;
  }

  async function refusing(action, undone) {
    const done = await make(action, undone);
    return done.refused ? done.problems[0] || { says: done.refused.replace(/\.$/, ''), why: 'Nothing has been changed', do: '' } : null;
  }

  return {
    // Changes of the text made on the plate: [{from, to, insert}], and the words that name the step.
    change(changes, words) {
      let text = store.text;
      for (const { from, to, insert } of [...changes].sort((a, b) => b.from - a.from)) text = text.slice(0, from) + insert + text.slice(to);
      store.write(text, words);
    },
    // A typed value. Gives the problem that stands against it, or null once it is written.
    value(one, value) {
      const undone = `${lower(one.name)}, back to ${one.number ? `${one.number} ${one.aloud}` : one.symbol}`;
      for (const id of one.ids) store.whatIf.delete(id);
      if (one.ids.length > 1) return refusing({ do: 'write-in', values: Object.fromEntries(one.ids.map((id) => [id, value])) }, undone);
      return refusing({ do: 'set', target: one.id, value }, undone);
    },
    // A change of the build that gives the rig an answer, written at once. Gives the part to go on from.
    async mend(action) {
      const done = await ask('edit', { text: store.text, action });
      if (done.refused) say(unquoted(done.refused));
      else store.write(done.text, done.words, { says: `${done.says} Undo takes it back.`, whole: true });
      return done.focus;
    },
    title: (value) => refusing({ do: 'set', target: 'title', value }),
    // What is being tried becomes what is written: one step of Undo.
    async writeIn() {
      if (!store.whatIf.size) return;
      const done = await ask('edit', { text: store.text, action: { do: 'write-in', values: Object.fromEntries(store.whatIf) } });
      if (done.refused) { say(done.refused); return; }
      const words = seeing().groups().filter((one) => store.whatIf.has(one.id)).map((one) => `${lower(one.name)} ${store.whatIf.get(one.id).replace(one.unit, one.aloud)}`).join(', ');
      store.whatIf.clear();
      store.write(done.text, words, { says: done.says, whole: true });
    },
    // One rule's value, or all that is being tried, as the slip has it.
    putBack(one) {
      const back = one ? [one] : seeing().groups().filter((each) => store.whatIf.has(each.id));
      for (const id of back.flatMap((each) => each.ids)) store.whatIf.delete(id);
      store.tell('tried', { says: back.length === 1 ? `Put back to ${back[0].number} ${back[0].aloud}.` : 'Put back.' });
    },
    async tidy() {
      const done = await make({ do: 'tidy' });
      if (done.refused) say(unquoted(done.refused));
    },
    undo() {
      const step = store.undo();
      say(step ? `Undone: ${step.undone || step.words}.` : 'Nothing to undo.');
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
      if (step) say([`Step ${told.steps.indexOf(step) + 1} of ${told.steps.length}, ${step.idea}.`, `${step.spoken}${step.formula_spoken.includes('=') ? ` ${step.formula_spoken}.` : ''}`]);
    },
    // Both texts stay: what the disk has under its name, these words under a name of their own.
    async both() {
      const name = found.free(store.name.replace(/\.rig$/, ''));
      store.name = name;
      await keeper.asNew();
      await keeper.words.asNew();
      say(`Yours is kept as ${name}.`);
    },
  };
}

function lower(text) { return text[0].toLowerCase() + text.slice(1); }
