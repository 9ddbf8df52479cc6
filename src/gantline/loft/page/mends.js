// What would have to change where a rig has no answer. A value is tried first; a change of the build is written at once.
import { find, made, make, word } from './dom.js';

const TRIED = 'Each is tried first; the slip changes only when you write it in.';
const BUILT = 'Each changes the slip at once; Undo takes it back.';
const BOTH = 'A weight is tried first. A change of the build is written at once; Undo takes it back.';
const ANSWERED = new Set(['holds', 'accelerates']);

// `attempt(values)` tries what stands in a proposal, `build(action)` makes it and gives the part to go on from.
export function Mends({ attempt, build, focus }) {
  const element = find('mend'), said = find('mend-says'), list = find('changes'), how = find('mend-how');
  let next = () => {};

  function offer(proposal) {
    const act = async () => {
      if (proposal.action) { const to = await build(proposal.action); next = () => focus(to); } else { next = () => focus(''); attempt(proposal.what_if); }
      if (element.hidden && document.activeElement === document.body) next();
    };
    const then = proposal.then ? made('span', `then ${proposal.then}`, { class: 'then' }) : make('span', { class: 'then' }, proposal.helps ? `then ${proposal.spoken}` : proposal.spoken);
    return make('li', {}, word(proposal.words, act, 'strong'), then);
  }

  function hide() {
    const held = element.contains(document.activeElement);
    element.hidden = true;
    if (held) next();
  }

  return {
    // What is seen has an answer: there is nothing to mend. Else what is shown stays until the account comes.
    seen({ status }) { if (ANSWERED.has(status)) hide(); },
    show({ status }, sentence, proposals) {
      if (ANSWERED.has(status) || !(sentence || proposals.length)) { hide(); return; }
      said.textContent = sentence;
      list.replaceChildren(...proposals.map(offer));
      const built = proposals.filter((one) => one.action).length;
      how.textContent = !proposals.length ? '' : !built ? TRIED : built === proposals.length ? BUILT : BOTH;
      element.hidden = false;
    },
    hide,
  };
}
