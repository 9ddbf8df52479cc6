// The line above the plate: one sentence for eye and ear. What is said many times over is said once, when it has settled.
import { find, make, renew, word } from './dom.js';

const REST_MS = 300, READ_MS = 1500;
const spokenLines = [];

export function Line() {
  const element = find('line'), words = find('line-words');
  element.tabIndex = -1; // where the focus goes when the word that had it is gone
  let timer = 0, resting = '', hinted = '', said_at = -READ_MS;

  function put(said, rest = false) {
    element.classList.toggle('says', !rest);
    const [strong, more] = Array.isArray(said) ? said : ['', said];
    if (element.textContent === `${strong}${strong && more ? ' ' : ''}${more}`) return;
    element.replaceChildren(...(strong ? [make('b', {}, strong), more ? ` ${more}` : ''] : [more]));
    if (!rest && element.textContent) {
      spokenLines.push(element.textContent);
      said_at = performance.now();
    }
    if (spokenLines.length > 200) spokenLines.shift();
  }

  return {
    // One message an action. `settled` waits until typing or dragging has come to rest; then the last is said.
    say(said, { settled = false } = {}) {
      clearTimeout(timer);
      hinted = '';
      if (settled) timer = setTimeout(() => put(said), REST_MS); else put(said);
    },
    // What stands there when nothing has been said.
    rest(said) {
      if (element.textContent === resting || !element.textContent) put(said, true);
      resting = said;
    },
    back() { clearTimeout(timer); put(resting, true); },
    // While something is pointed at, the line says what it is; it is shown and not spoken, and takes no sentence away
    // that has only just been said.
    hint(said) {
      if (said && performance.now() - said_at < READ_MS) return;
      if (said && !hinted) hinted = element.textContent;
      element.setAttribute('aria-live', 'off');
      if (said) put(['', said], true); else if (hinted) { put(hinted, true); hinted = ''; }
      requestAnimationFrame(() => element.setAttribute('aria-live', 'polite'));
    },
    words(list) { renew(words, list.map(([text, act, kind]) => keyed(word(text, act, kind), text)), element); },
    get spoken() { return spokenLines; },
  };
}

function keyed(element, key) {
  element.dataset.key = key;
  return element;
}
