// The server gone: it is said, the words are held in this window, and it is tried again until it answers.
import { find, make, word } from './dom.js';
import { ask, Gone } from './server.js';

const RETRY_S = 4, GONE = 'The loft has stopped answering.';

// `seen` says of when plate and answer are, empty for never; `copy` copies the slip; `told` says how the files stand;
// `returned` keeps what was held.
export function Away({ say, seen, copy, told, returned }) {
  const notice = find('notice');
  let left = 0, retry = 0, why = GONE, again = () => {};

  // `then` is done once it answers again.
  function gone(then = again, said = GONE) {
    why = said;
    again = then;
    if (!left) say(`${why} Your words are safe in this window.`);
    left = RETRY_S;
    told();
    paint();
    clearInterval(retry);
    retry = setInterval(() => {
      left -= 1;
      if (left <= 0) tryNow(); else paint();
    }, 1000);
  }

  function paint() {
    const next = make('span', { class: 'soft', 'data-left': true }, `next try in ${left} s`);
    if (!notice.hidden) { notice.querySelector('[data-left]').replaceWith(next); return; }
    notice.className = 'notice gone';
    notice.hidden = false;
    notice.replaceChildren(
      make('p', {}, make('b', {}, why), ` Your words are safe in this window.${seen() ? ` The plate and the answer are those of ${seen()}.` : ''} Trying again by itself.`),
      make('div', { class: 'choices' }, word('Try now', tryNow), word('Copy the slip', copy), next));
  }

  async function tryNow() {
    clearInterval(retry);
    left = RETRY_S;
    try {
      await ask('files');
      back();
      again();
    } catch (error) {
      gone(again, error instanceof Gone ? GONE : error.message);
    }
  }

  function back() {
    if (!left) return;
    clearInterval(retry);
    left = 0;
    notice.hidden = true;
    returned().then((whole) => { if (whole) say('Back again. Everything is kept.'); });
  }

  return { gone, back, get now() { return left > 0; } };
}
