// What stands under the plate: the equation, what follows from it, and what it was checked by.
import { find, make, setMade, word } from './dom.js';

const NO_CHECK = 'This answer did not pass its own check and is not shown. Please report it with this slip.';

export function Answer({ copySlip }) {
  const formula = find('formula'), follows = find('follows'), certificate = find('certificate');

  // `before` is the answer of the slip's own values while others are tried.
  function show(seen, { way, trying, before }) {
    const { answer } = seen;
    if (!answer.checked && seen.status !== 'impossible') {
      formula.replaceChildren();
      follows.replaceChildren(NO_CHECK, ' ', word('Copy the slip', copySlip));
      certificate.textContent = '';
      return;
    }
    if (!answer.formula && seen.status !== 'holds') { follows.textContent = seen.says; certificate.textContent = answer.checked; return; }
    const changed = setMade(formula, answer.formula);
    if (changed || trying || before) dress(formula, { way, trying, before });
    follows.textContent = answer.follows || seen.says;
    certificate.textContent = trying ? `${answer.checked} Checked here too.` : answer.checked;
  }

  function dress(element, { way, trying, before }) {
    element.querySelector('.was')?.remove();
    const pieces = element.querySelectorAll('math');
    for (const piece of pieces) {
      const last = piece === pieces[pieces.length - 1];
      piece.classList.toggle('result', last && pieces.length > 1 && !piece.querySelector('mi'));
      piece.classList.toggle('trying', last && trying);
    }
    const said = [way === 'ideal' ? '' : way, trying && before ? `was ${before}` : ''].filter(Boolean).join('; ');
    if (said) element.append(make('span', { class: `was${trying ? ' trying' : ''}` }, `\u2002${said}`));
  }

  return {
    show,
    // Where no number comes out: the equation that says why.
    open(markup) { setMade(formula, markup); },
    // A problem stands in the way: what was reckoned last stays, and says of when it is.
    wait(line, when, letters = false) {
      if (!formula.querySelector('.wait')) {
        const pieces = [...formula.querySelectorAll('math')];
        if (!letters) for (const piece of pieces.slice(pieces.length > 2 ? 2 : 1)) piece.remove();
        formula.append(make('span', { class: 'wait' }, pieces.length ? '\u2002= no number yet' : 'no number yet'));
      }
      follows.textContent = `${letters ? 'The formula needs no unit. ' : ''}The number waits for line ${line}.`;
      certificate.textContent = when;
    },
    // Nothing is known yet; with `whole` false what stands there stays.
    empty(said, whole = true) {
      if (!whole) return;
      formula.replaceChildren(make('i', { class: 'wait' }, 'F = …'));
      follows.textContent = said;
      certificate.textContent = '';
    },
  };
}
