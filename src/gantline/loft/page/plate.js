// The plate: the figure as a list of parts that can be walked, lit, opened and changed where they stand.
import { make, unquoted } from './dom.js';
import { touches } from './light.js';
import { Places, boxes, isWay, nearest } from './plate_boxes.js';
import { dotted, open as openField, written } from './plate_givens.js';
import { Reeving } from './plate_reeve.js';
import { Sheet } from './plate_sheet.js';
import { Tag } from './plate_tag.js';
import { ask } from './server.js';

const FIXED = new Set(['fixed']), WIDE = { left: 0, top: 0, width: 0, height: 0 };

export function Plate(element, { say, light, store, ghost, words }) {
  const told = make('p', { class: 'unseen', id: 'plate-alt' });
  const list = make('ul', { class: 'parts', role: 'listbox', 'aria-label': 'Parts of the rig, 0' });
  const givens = make('div', { class: 'dotted-all' });
  const home = make('div', { class: 'plate-doc', role: 'graphics-document document', 'aria-label': 'Plate', 'aria-describedby': 'plate-alt' });
  const sheet = Sheet(home), why = make('p', { class: 'undrawn' });
  home.append(list, givens);
  element.replaceChildren(home, told, why);
  let seen = null, found = new Map(), focused = '', wanted = '', rope = '', tag = null, lit = [], kept = [], another = false, quiet = false;

  const write = (done, kept = {}) => {
    sheet.changes();
    store.write(done.text, done.words, { says: done.says, whole: true, ...kept });
  };
  const reeving = Reeving({
    sheet, home, list, say, words, write, store, ghost, light,
    described: (alt) => { told.textContent = alt; },
    ended(done) { wanted = done.focus; another = true; },
    left(sentence, lying) { wanted = lying || focused; show(seen); wanted = lying || focused; store.look({}); if (sentence) say(sentence); },
  });
  store.addEventListener('written', () => reeving.changed());
  store.addEventListener('opened', () => reeving.stop());

  // -- what is seen ------------------------------------------------------------------------------------------------

  function show(given) {
    seen = given && { ...given, parts: withBeam(given) };
    if (reeving.active) return;
    why.textContent = seen && !seen.svg ? seen.undrawn || '' : '';
    if (!seen?.svg) { sheet.show(''); list.replaceChildren(); givens.replaceChildren(); return; }
    const held = list.contains(document.activeElement) || (wanted !== '' && free());
    sheet.show(seen.svg);
    element.classList.remove('aged');
    told.textContent = seen.alt || '';
    home.setAttribute('aria-label', `Plate: ${seen.title || 'a rig'}, ${sheet.svg.dataset.view}`);
    place();
    const next = wanted || focused;
    wanted = '';
    settle(found.has(next) ? next : neighbour(next));
    if (held) focus(focused);
    if (another) { another = false; requestAnimationFrame(() => words([['Reeve another', () => reeve()]])); }
  }

  // The beam is no part of the text unless something is made fast to it; on the plate it can be pointed at all the same.
  function withBeam({ svg, parts }) {
    if (!svg?.includes('data-part="beam"') || parts.some((part) => part.id === 'beam')) return parts;
    return [{ id: 'beam', kind: 'beam', of: '', says: 'the beam', givens: [] }, ...parts];
  }

  // Whether the focus may be moved: it is nowhere, or on the plate and not in a tag or a field.
  function free() {
    const at = document.activeElement;
    return at === document.body || (home.contains(at) && !at.closest('.tag,.plate-field'));
  }

  function place() {
    const held = list.contains(document.activeElement);
    sheet.frame();
    found = boxes(home, sheet.svg, seen.parts);
    const options = seen.parts.filter((part) => found.has(part.id)).map(option);
    const order = new Map(['rope', 'beam', 'fixed', 'moving', 'load', 'strand', 'hand', 'sheave'].map((kind, n) => [kind, n]));
    list.setAttribute('aria-label', `Parts of the rig, ${options.length}`);
    list.replaceChildren(...options);
    for (const each of options) each.style.zIndex = order.get(each.dataset.kind);
    givens.replaceChildren(...dotted(new Places(home, sheet.svg), sheet.svg, seen, found, change_, store.whatIf));
    chalk();
    settle(focused);
    sheet.settled();
    if (held) focus(focused);
  }

  function option(part) {
    const { left, top, width, height } = found.get(part.id);
    const one = make('li', { role: 'option', class: 'part', tabindex: -1, 'data-part': part.id, 'data-kind': part.kind, 'aria-label': part.says, 'aria-selected': 'false' });
    if (part.kind === 'rope' && !seen.parts.some((each) => each.of === part.id)) one.classList.add('lying');
    Object.assign(one.style, { left: `${left}px`, top: `${top}px`, width: `${width}px`, height: `${height}px` });
    return one;
  }

  function chalk() {
    const marks = lit.length && sheet.svg ? seen.parts.filter((part) => touches(lit, part.id)).flatMap(marksOf) : [];
    sheet.chalk(marks);
    for (const each of list.children) each.setAttribute('aria-selected', String(kept.includes(each.dataset.part)));
  }

  function marksOf({ id, kind }) {
    const name = CSS.escape(id), all = (chooser) => [...sheet.svg.querySelectorAll(chooser)];
    if (kind === 'strand') return all(`line[data-strand="${name}"]`).slice(0, 1);
    if (kind === 'sheave') return all(`circle[data-sheave="${name}"]`).slice(0, 1);
    if (kind === 'rope') return all(`path[data-part="${name}"][class*="case"]`);
    return all(`[data-layer="${{ hand: 'hand', beam: 'ground' }[kind] || 'body'}"] [data-part="${name}"]:not(text)`);
  }

  // -- walking -----------------------------------------------------------------------------------------------------

  const kindOf = (id) => seen?.parts.find((part) => part.id === id)?.kind;
  const optionOf = (id) => list.querySelector(`[data-part="${CSS.escape(id)}"]`);

  function settle(id) {
    focused = id;
    for (const each of list.children) each.tabIndex = each.dataset.part === id ? 0 : -1;
  }

  // Moved by the page, not by the reader: what was just said stays in the line.
  function focus(id, lights = false) {
    settle(id);
    const one = optionOf(id);
    quiet = !lights;
    if (one) one.focus({ preventScroll: true }); else { home.tabIndex = -1; home.focus(); }
    quiet = false;
    if (kindOf(id) === 'rope') rope = id;
  }

  // Where to go on from when a part is gone: its block or rope, else the first part there is.
  function neighbour(id) {
    const block = id.split(/[.:]/)[0];
    return found.has(block) ? block : list.firstElementChild?.dataset.part || '';
  }

  // The rope's whole way, from its name to its last end.
  function path(name) {
    const strands = seen.parts.filter((part) => part.kind === 'strand' && part.of === name);
    return [name, ...strands.flatMap((strand, n) => [...(n ? [] : [strand.from]), strand.id, strand.to])].filter((id) => found.has(id));
  }

  function along(id, by) {
    const names = seen.parts.filter((part) => part.kind === 'rope').map((part) => part.id);
    const on = [rope, ...names].find((name) => name && path(name).includes(id));
    const way = on ? path(on) : names[0] ? path(names[0]) : [];
    if (on) rope = on;
    return way[(way.indexOf(id) < 0 ? 0 : way.indexOf(id) + by)];
  }

  function go(id, nothing) { if (id && found.has(id)) focus(id, true); else say(nothing); }

  const SAYS = { ArrowLeft: 'further left', ArrowRight: 'further right', ArrowUp: 'higher', ArrowDown: 'lower' };
  const bodies = () => new Map([...found].filter(([id]) => kindOf(id) !== 'rope'));

  function key(event) {
    const part = event.target.closest('.part');
    if (!part || event.ctrlKey || event.altKey || event.metaKey) return;
    const id = part.dataset.part, firstFixed = seen.parts.find((each) => FIXED.has(each.kind) && found.has(each.id))?.id;
    const keys = {
      PageDown: () => go(along(id, 1), 'The rope ends here.'), PageUp: () => go(along(id, -1), 'The rope begins here.'),
      Home: () => go(firstFixed, 'Nothing is fixed.'), End: () => go('hand', 'No hand hauls here.'),
      Enter: () => openTag(id), ContextMenu: () => openTag(id), ' ': () => { kept = kept.includes(id) ? [] : [id]; light([id], true); },
      F2: () => change_(givenOf(id)), Delete: () => act({ do: 'remove', part: id }),
    };
    if (event.key === 'F10' && event.shiftKey) openTag(id);
    else if (isWay(event.key)) go(nearest(kindOf(id) === 'rope' ? found : bodies(), id, event.key), `Nothing ${SAYS[event.key]}.`);
    else if (keys[event.key]) keys[event.key]();
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  home.addEventListener('keydown', (event) => {
    if (event.target.closest('.tag,.plate-field,button')) return;
    if (!reeving.active) key(event);
    else if (!event.ctrlKey && !event.altKey && !event.metaKey && reeving.key(event)) { event.preventDefault(); event.stopPropagation(); }
  });
  list.addEventListener('focusin', (event) => {
    const part = event.target.closest('.part');
    if (!part) return;
    settle(part.dataset.part);
    if (!quiet) light([focused]);
  });
  list.addEventListener('focusout', () => { if (!reeving.active) light(null); });
  list.addEventListener('pointerover', (event) => { const part = event.target.closest('.part'); if (part) light([part.dataset.part]); });
  list.addEventListener('pointerleave', () => { if (!reeving.active) light(null); });
  list.addEventListener('click', (event) => { const part = event.target.closest('.part'); if (part) { focus(part.dataset.part); openTag(part.dataset.part); } });

  // -- tags and fields ---------------------------------------------------------------------------------------------

  async function openTag(id, at = found.get(id) || WIDE) {
    tag?.close(false);
    const given = await ask('tag', { text: store.text, of: id }).catch((error) => { say(error.message); return null; });
    if (!given) return;
    tag = Tag(home, given, at, {
      closed(back) { tag = null; if (back) focus(focused); },  // where else the pointer went, it stays
      act: (verb) => {
        if (verb.do) act(verb.do);
        else if (verb.field) change_(verb.field);
        else if (verb.rename) renamed(verb.rename);
        else if (verb.start.startsWith('rope ')) reeve(verb.start.slice(5));
        else reeve('', verb.start);
      },
    });
  }

  // An edit made: the text changes, the sentence is said, the focus goes on from the part it names.
  async function act(action) {
    const before = store.text, done = await ask('edit', { text: before, action });
    if (store.text !== before) return done;
    if (done.refused) { say(unquoted(done.refused)); if (!home.contains(document.activeElement)) focus(focused); return done; }
    wanted = done.focus || focused;
    write(done);
    if (action.do === 'lead' || action.do === 'out') reeving.begin(done.rope, '', done.rest);
    return done;
  }

  function givenOf(id) {
    const part = seen.parts.find((each) => each.id === id), own = part?.givens || [];
    const first = ['weight', 'mass', 'efficiency'].map((word_) => own.find((one) => one.endsWith(`.${word_}`))).find(Boolean);
    return first || { load: `${id}.weight`, moving: `${id}.weight`, sheave: `${part?.of}.efficiency` }[part?.kind] || '';
  }

  function change_(target) {
    if (!target) { say('Nothing here can be changed as a number.'); return; }
    const [way, name] = target.split(' '), motion = seen.givens.find((one) => one.id === 'raise' || one.id === 'lower');
    const known = name ? (motion?.part === name ? motion : null) : seen.givens.find((one) => one.id === target);
    const part = name || known?.part || target.split('.')[0];
    const label = known ? known.says : name ? `Rise of ${name}` : `${target.split('.')[1]} of ${part}`;
    const action = (value) => (name ? { do: 'raise', part: name, value, way: motion?.id || way } : { do: 'set', target, value });
    openField(home, {
      at: fieldAt(target, part), value: known ? written(store, seen, known.id) : '', label,
      keep: async (value) => against(await act(action(value))),
      done: (next) => { if (next) step(target, next); else focus(found.has(part) ? part : focused); },
    });
  }

  function against(done) {
    if (!done.refused) return null;
    const problem = done.problems[0];
    return problem ? { says: problem.says, why: problem.why, do: problem.do } : { says: done.refused.replace(/\.$/, ''), why: 'The slip stays as it was', do: '' };
  }

  function fieldAt(target, part) {
    const button = givens.querySelector(`[data-given="${CSS.escape(target)}"]`);
    return button ? { left: button.offsetLeft, top: button.offsetTop, width: button.offsetWidth, height: button.offsetHeight } : found.get(part) || WIDE;
  }

  function step(target, by) {
    const all = seen.givens.filter((one) => found.has(one.part) && one.key !== 'sheaves').map((one) => one.id);
    const next = all[all.indexOf(target) + by];
    if (next) change_(next); else focus(found.has(target.split('.')[0]) ? target.split('.')[0] : focused);
  }

  function renamed(name) {
    openField(home, {
      at: found.get(name) || WIDE, value: name, label: `Name of ${name}`,
      keep: async (value) => against(await act({ do: 'rename', part: name, to: value })), done: () => focus(focused),
    });
  }

  // -- what the margin's words do ----------------------------------------------------------------------------------

  function reeve(name = '', start = '') { tag?.close(false); return reeving.begin(name, start); }

  const corner = { left: -10, top: 0, width: 0, height: 0 };
  new ResizeObserver(() => { if (reeving.active) reeving.lay(); else if (seen?.svg) place(); }).observe(home);

  return {
    show,
    reeve: () => reeve(),
    addBlock: () => openTag('make:add-block', corner),
    addSheave: () => openTag('make:add-sheave', corner),
    hangLoad: () => openTag('make:hang-load', corner),
    mirror() { say(sheet.mirror() ? 'The plate is mirrored; the rig is the same.' : 'The plate is as it was.'); if (seen?.svg && !reeving.active) place(); },
    get reeving() { return reeving.active; },
    light(ids, stays) {
      lit = ids;
      if (!stays) kept = []; else if (!kept.length) kept = ids;
      if (seen?.svg && !reeving.active) chalk();
    },
    aged(on) { element.classList.toggle('aged', on); },
    clear() { show(null); },
    escape() {
      if (tag) { tag.close(true); return true; }
      if (reeving.active) { reeving.leave(); return true; }
      return false;
    },
    focus,
  };
}
