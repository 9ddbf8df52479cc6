// The sheet under the running head: what the file was earlier, and what can be handed out of it.
import { find, make, renew, word } from './dom.js';
import { ask } from './server.js';

const OUTS = [
  ['page', 'A lesson page', 'one file with every step and figure; it needs nothing from anywhere'],
  ['lesson', 'The whole lesson', 'page, print, script and figures, packed into one file'],
  ['svg', 'The figure, as SVG', 'as the plate shows it now; text stays text'],
  ['png', 'The figure, as PNG', 'the same, 1600 pixels wide'],
  ['answer', 'The answer', 'the record that other programs read'],
];

export function Sheet({ store, say, look, goBack, handOut }) {
  const sheet = find('sheet');
  let open = '';

  function close() {
    if (!open) return false;
    const button = find(open);
    open = '';
    sheet.hidden = true;
    for (const id of ['earlier', 'hand-out']) find(id).setAttribute('aria-expanded', 'false');
    look(null);
    button.focus();
    return true;
  }

  async function toggle(id, fill) {
    if (open === id) { close(); return; }
    if (open) close();
    open = id;
    find(id).setAttribute('aria-expanded', 'true');
    sheet.hidden = false;
    sheet.setAttribute('aria-label', find(id).textContent);
    await fill();
    sheet.querySelector('button')?.focus();
  }

  async function earlier() {
    const given = store.name ? await ask(`history?name=${encodeURIComponent(store.name)}`).catch((error) => { say(error.message); return { earlier: [] }; }) : { earlier: [] };
    let chosen = null;
    const entries = given.earlier.map((each) => ({ ...each, time: clock(each.at) }));
    const rows = entries.map((each) => make('button', {
      type: 'button', class: 'entry', 'aria-pressed': 'false', onclick: (event) => pick(each, event.currentTarget),
    }, make('time', { datetime: each.at }, each.time), make('span', { class: 'name' }, each.says)));
    const words = make('div', { class: 'choices' }, word('Close', close));

    function pick(each, row) {
      chosen = each;
      for (const other of rows) other.setAttribute('aria-pressed', String(other === row));
      renew(words, [
        word(`Look at ${each.time}`, () => { look(chosen.text); say(`This is how it was at ${each.time}. Looking changes nothing.`); }),
        word('Go back to it', () => { const { text, time } = chosen; close(); goBack(text, `gone back to ${time}`); }, 'strong'), word('Close', close)], words);
    }

    sheet.replaceChildren(make('h2', {}, 'Earlier'), rows.length ? make('div', { class: 'entries' }, rows) : make('p', { class: 'soft' }, 'Nothing was kept yet. What is kept can be gone back to from here.'),
      words, rows.length ? make('p', { class: 'soft small' }, 'Looking changes nothing. Going back is itself a step, so it can be undone.') : '');
  }

  function handing() {
    const told = make('p', { role: 'status' });
    const rows = OUTS.flatMap(([what, name, says]) => [word(name, () => handOut(what, told)), make('span', { class: 'soft' }, says)]);
    sheet.replaceChildren(make('h2', {}, 'Hand out'), make('div', { class: 'outs' }, rows), told, make('div', { class: 'choices' }, word('Close', close)));
  }

  find('earlier').addEventListener('click', () => toggle('earlier', earlier));
  find('hand-out').addEventListener('click', () => toggle('hand-out', handing));
  return { close };
}

function clock(at) {
  const date = new Date(at), same = date.toDateString() === new Date().toDateString();
  return same ? date.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' }) : date.toLocaleDateString([], { day: 'numeric', month: 'short' });
}
