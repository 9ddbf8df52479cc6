// Problems: each under its line, one card at a time, with what and where, why, and what can be written instead.
import { find, make, quoted, sentence as whole, unquoted, word } from './dom.js';
import { offset } from './store.js';

export function Card({ slip, store, say }) {
  const card = find('card'), body = find('slip-body'), note = find('slip-note'), next = find('next-problem');
  let list = [], at = 0, open = false;

  const place = (problem) => offset(store.text, problem.line, problem.column);

  function show(problems) {
    const was = list[at]?.code;
    list = problems;
    at = Math.max(0, list.findIndex((each) => each.code === was && was));
    next.hidden = !list.length;
    find('tidy').hidden = find('words').hidden = list.length > 0;
    note.textContent = list.length ? `${counted(list.length)}, on line ${list.length === 1 ? list[0].line : [...new Set(list.map((each) => each.line))].join(', ')}` 
      : 'the rig in words; you may leave it alone';
    open = list.length > 0;
    paint();
  }

  function paint() {
    slip.problems(list.map((each) => ({ from: place(each), to: place(each) + Math.max(1, each.length || wordAt(store.text, place(each))) })));
    card.hidden = !open;
    if (!open) { slip.card(null); body.style.removeProperty('--card'); return; }
    const problem = list[at];
    const held = card.contains(document.activeElement);
    card.replaceChildren(
      make('p', {}, make('b', {}, quoted(`${whole(problem.says)} `)), make('span', { class: 'where-at' }, `Line ${problem.line}, column ${problem.column}`)),
      make('p', { class: 'why' }, quoted(whole(problem.why))),
      offers(problem).length ? make('div', { class: 'choices' }, make('span', {}, 'Write'), offers(problem).map((offer, n) => word(offer.says, () => take(offer), n ? '' : 'strong'))) : make('p', {}, quoted(whole(problem.do))),
    );
    if (held) (card.querySelector('button') || find('slip')).focus();
    requestAnimationFrame(lay);
  }

  // The card lies over room that the editor leaves below the line.
  function lay() {
    if (!open) return;
    const height = card.offsetHeight + 12;
    slip.card({ at: place(list[at]), height });
    body.style.setProperty('--card', `${height}px`);
    card.style.top = slip.plain ? '' : `${slip.below(place(list[at])) - height + 6}px`;
    requestAnimationFrame(() => { if (open && !slip.plain) card.style.top = `${slip.below(place(list[at])) - height + 6}px`; });
  }

  function take(offer) {
    const from = offset(store.text, offer.line, offer.column), end = offset(store.text, offer.line, offer.column + offer.length);
    slip.replace({ from, to: end, insert: offer.write }, `${offer.says} written on line ${offer.line}`);
    slip.focus();
  }

  function go(by) {
    if (!list.length) { say('No problems.'); return; }
    at = (at + by + list.length) % list.length;
    open = true;
    paint();
    slip.go(place(list[at]));
    say(sentence(list, at));
  }

  next.addEventListener('click', () => go(1));
  new ResizeObserver(lay).observe(card);
  return {
    show, go,
    remedy() {
      const offer = list[at] && offers(list[at])[0];
      if (offer) take(offer); else say(list.length ? unquoted(whole(list[at].do)) : 'No problems.');
    },
    sentence: () => sentence(list, at),
    get list() { return list; },
  };
}

function offers(problem) { return problem.offers || []; }

function counted(count) { return count === 1 ? 'one problem' : `${count} problems`; }

// "Line 5: 468 has no unit. 1 problem. Alt Enter writes 468 newtons."
function sentence(list, at) {
  const problem = list[at], first = offers(problem)[0];
  return `Line ${problem.line}: ${unquoted(problem.says)}. ${list.length} problem${list.length === 1 ? '' : 's'}.${first ? ` Alt Enter writes ${first.aloud || first.says}.` : ''}`;
}

function wordAt(text, at) { return (text.slice(at).match(/^\S+/) || [' '])[0].length; }
