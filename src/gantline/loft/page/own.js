// The tutor's own words: the server writes them into the script beside the rig, where every step has its heading.
import { ask, Gone } from './server.js';

export function Own({ store, say, away }) {
  // A step's sentence, empty for the program's. Gives why that cannot be, or nothing once it is written.
  async function refused(step, method, words) {
    const { text, script, name } = store;
    try {
      const answer = await ask('say', { text, script, what_if: Object.fromEntries(store.whatIf), method, step: step.id, say: words });
      if (answer.script === undefined) return answer.says || 'Mend the slip first; then the words can be kept.';
      if (store.name !== name) return ''; // another rig was taken up: these words were for the one before
      if (store.script !== script) return refused(step, method, words); // others came meanwhile: it is written among them
      store.writeWords(answer.script, words ? `own words for ${step.idea}` : `the program's words for ${step.idea}`);
      return '';
    } catch (error) {
      if (error instanceof Gone) away.gone();
      return error.message;
    }
  }

  return {
    refused,
    // The same, said in the line above the plate. Gives whether it is written.
    async write(step, method, words) {
      const why = await refused(step, method, words);
      say(why || (words ? 'Said in your words from now on.' : "The program's words are back."));
      return !why;
    },
  };
}
