// From the words to everything that is seen of them: asks, and lays the answer out over the page.
import { BLANK } from './blank.js';
import { find, unquoted } from './dom.js';
import { lineOf, offset } from './store.js';
import { Gone, Newest } from './server.js';
import { touches } from './light.js';

const SLOW_MS = 1000, LONG_MS = 5000;
const NONE = { impossible: 'where no pull could hold it', slack: 'where a rope was slack', indeterminate: 'where it was not settled' };
const RESTING = 'Point at anything: it lights up everywhere. Dotted numbers are yours to change.';

export function Seeing({ store, light, line, slip, card, margin, plate, answer, rules, account, motion, tried, mends, keeper }) {
  let seen = null, base = null, told = null, standing = null, failed = 0, when = '', waits = null;
  const see = new Newest('see', heard, trouble), tell = new Newest('account', heardAccount, trouble);

  function question() {
    const step = store.step && told ? { method: told.method, id: store.step } : null;
    return { text: store.lookingAt ?? store.text, what_if: Object.fromEntries(store.whatIf), view: store.view, way: store.way, ...(step ? { step } : {}), ...(store.view === 'tried' && !step && store.hand ? { hand: store.hand } : {}) };
  }

  function ask(why) {
    if (!store.text.trim()) empty();
    see.ask(question(), why);
    if (!waits) waits = [setTimeout(() => answer.empty('Drawing the plate.', !seen), SLOW_MS), setTimeout(() => line.words([['Stop', stop]]), LONG_MS)];
  }

  function askAccount() {
    const { text, what_if } = question();
    tell.ask({ text: standing ? standing.text : text, script: store.script, what_if: standing ? {} : what_if, ...(store.method ? { method: store.method } : {}) });
  }

  // After a while it is said that something is still going on; after longer it can be stopped.
  function stop() {
    see.stop();
    line.words([]);
    line.say('Stopped. The words are as they were.');
  }

  function settled() {
    for (const each of waits || []) clearTimeout(each);
    waits = null;
  }

  function heard(given, asked, why) {
    settled();
    if (failed) { failed = 0; keeper.back(); }
    if (plate.reeving) { account.wait('waits until the rope has two ends'); return; }
    if (given.problems.length) { hindered(given, why); return; }
    const mended = card.list.length > 0;
    seen = given;
    standing = null;
    when = new Date().toLocaleTimeString([], { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
    if (!store.whatIf.size) base = given;
    card.show([]);
    keeper.problems(0);
    paint(asked);
    report(why, mended);
    mends.seen(seen);
    askAccount();
  }

  // A problem removes nothing: what was seen last stays, and only says of when it is.
  function hindered(given, why) {
    if (!store.text.trim()) { plate.show(given.svg ? given : BLANK); return; } // a blank slip is no mistake
    if (store.whatIf.size && given.problems.every((each) => each.text.includes(' = '))) {
      line.say([unquoted(`${given.problems[0].says}.`), unquoted(given.problems[0].why)]);
      return;
    }
    card.show(given.problems);
    keeper.problems(given.problems.length);
    const first = given.problems[0];
    standing = given.still;
    if (standing) {
      seen = standing;
      paint({}, { line: first.line, text: first.text });
      mends.seen(seen);
      askAccount();
    } else {
      if (given.svg) { seen = { ...seen, ...given }; plate.show(seen); shine(); } else plate.aged(true);
      account.wait('waits until the slip is mended');
    }
    const was = base?.wheels[0]?.says;
    find('answer').hidden = false; // also under what is tried: it says what it waits for
    answer.wait(first.line, standing ? (was ? `At ${when} it was ${was}.` : '') : when ? `The plate and the formula are those of ${when}.` : '', Boolean(standing));
    line.words([[`Go to line ${first.line}`, () => card.go(0)]]);
    line.say(card.sentence(), { settled: why.typed });
  }

  function paint(asked, broken = null) {
    plate.show(seen);
    margin.views({});
    margin.view(store.step && told ? told.steps.find((each) => each.id === store.step)?.view : store.view);
    margin.wheels(seen.wheels, seen.status, seen.status === 'impossible' ? 'No pull can hold this rig, whichever way the wheels turn.' : '');
    answer.show(seen, { way: asked.way || store.way, trying: store.whatIf.size > 0, before: before() });
    rules.show(broken ? seen : base || seen, broken);
    motion.show(store.view === 'motion' && !store.step ? seen.motion : null, find('plate').querySelector('svg[data-view]'));
    tried.show(store.step ? null : seen.tried);
    slip.tries(rules.all.filter((one) => store.whatIf.has(one.id)).map((one) => ({ at: offset(store.text, one.line, one.column), text: `what if ${store.whatIf.get(one.id)}` })));
    shine();
    document.title = `${seen.title || 'A rig'} - Gantline`;
  }

  const before = () => (base && !NONE[base.status] ? base.wheels.find((each) => each.way === store.way)?.says || base.wheels[0]?.says || '' : '');

  function heardAccount(given) {
    if (given.problems.length) return;
    told = given;
    margin.views(given.views);
    account.show(given, standing ? 'in letters until the slip is mended' : '');
    settle(given);
  }

  // A rig without a number: the equation that says why takes the answer's place, and below stands what would mend it.
  function settle({ steps, proposals }) {
    mends.show(seen, steps.find((step) => step.id === 'mend')?.says || steps.at(-1)?.says || '', proposals);
    if (NONE[seen.status] && !seen.answer.formula) answer.open(steps.filter((step) => step.formula).at(-1)?.formula || '');
  }

  // One sentence for eye and ear.
  function report(why, mended) {
    const pull = pulls(seen);
    const tried = rules.all.filter((one) => store.whatIf.has(one.id));
    if (tried.length) {
      const values = tried.map((one) => `${tried.length > 1 ? `${one.name.toLowerCase()} ` : ''}${store.whatIf.get(one.id).replace(one.unit, one.aloud)}`).join(', ');
      line.words([['Put back', () => store.tell('putBack'), ''], ['Write it in', () => store.tell('writeIn'), 'strong']]);
      const was = before() ? `was ${before()}` : NONE[base?.status];
      line.say([`What if ${values}:`, `${lower(pull)}${base && was && pulls(base) !== pull ? `, ${was}` : ''}.`], { settled: why.dragged });
      return;
    }
    line.words(light.kept ? [['Let go', () => light.letGo()]] : []);
    const status = statusLine(seen);
    line.rest(status || RESTING);
    if (why.says) line.say(why.whole ? why.says : `${why.says} ${pull}.`, { settled: why.dragged });
    else if (mended) line.say(`No problems left. ${pull}.`);
    else if (why.typed) line.say(status || `${pull}.`, { settled: true });
    else if (why.opened || !why.quiet) line.back();
  }

  function empty() {
    seen = base = null;
    mends.hide();
    card.show([]);
    keeper.problems(0);
    plate.show(BLANK);
    find('slip-note').textContent = 'nothing on it yet';
    answer.empty('Nothing hangs here yet.');
    account.clear('waits for a rig');
    line.words([['Reeve a rope', () => plate.reeve()], ['Hang a load', () => plate.hangLoad()]]);
    line.say('Beam and floor stand ready.');
  }

  function trouble(error, asked) {
    settled();
    if (error.name === 'AbortError') return;
    if (error instanceof Gone || error.status === 401) { failed += 1; keeper.gone(() => { see.ask(asked); }, error.message); return; }
    line.say(error.message);
  }

  // What is lit, in the slip's own words: from the name of a part to the end of a strand.
  function shine() {
    const ids = light.ids;
    const lit = ids.length && seen ? ranges(ids) : [];
    slip.light(lit);
    far(lit[0]);
    plate.light(ids, Boolean(light.kept));
    for (const element of document.querySelectorAll('#rig-page [data-parts]')) element.classList.toggle('lit', ids.length > 0 && speaksOf(element, ids));
  }

  // What is lit out of sight is named at the slip's head; nothing is scrolled for anybody.
  function far(first) {
    const head = find('slip').querySelector('.slip-head');
    if (first && !slip.shown(first.from)) head.dataset.far = `lit on line ${lineOf(store.text, first.from)}`; else delete head.dataset.far;
  }

  function ranges(ids) {
    const found = [];
    for (const part of seen.parts) if (touches(ids, part.id)) found.push(range(part));
    for (const given of standing ? [] : seen.givens) if (ids.includes(given.id)) found.push(span(given));
    return found.filter(Boolean);
  }

  const span = ({ line: row, column, length }) => ({ from: offset(store.text, row, column), to: offset(store.text, row, column + length) });

  // A contact with its side and its number: "under lower.1".
  function contact(part) {
    const { from, to } = span(part);
    const side = store.text.slice(0, from).match(/\b(over|under|hand +at) +$/), number = store.text.slice(to).match(/^\.\d+/);
    return { from: from - (side ? side[0].length : 0), to: to + (number ? number[0].length : 0) };
  }

  function range(part) {
    if (part.kind !== 'strand') return part.kind === 'sheave' ? contact(part) : span(part);
    return { from: contact(part).from, to: contact(part.end).to };
  }

  // What stands at a place of the slip: the smallest part or given that covers it, else the part of its line.
  function at(place) {
    if (place === null || !seen) return null;
    const all = [...seen.givens.map((each) => ({ ids: [each.id, each.part].filter(Boolean), ...span(each), says: each.says })), ...seen.parts.filter((each) => each.kind !== 'rope').map((each) => ({ ids: [each.id], ...span(each), says: each.says }))];
    const over = all.filter((each) => each.from <= place && place <= each.to).sort((a, b) => (a.to - a.from) - (b.to - b.from))[0];
    if (over) return over;
    const row = lineOf(store.text, place), part = seen.parts.find((each) => each.line === row);
    return part ? { ids: [part.id], says: part.says } : null;
  }

  light.addEventListener('lit', () => { shine(); line.hint(light.words || says(light.ids[0])); });
  light.addEventListener('kept', () => { if (!store.whatIf.size && !card.list.length) line.words(light.kept ? [['Let go', () => light.letGo()]] : []); });
  const says = (id) => seen?.parts.find((each) => each.id === id)?.says || '';

  const answerLine = () => (card.list.length ? card.sentence() : seen ? `${seen.status === 'holds' ? 'Holds. ' : ''}${pulls(seen)}. ${seen.answer.checked ? 'Checked.' : ''}`.trim() : 'Nothing hangs here yet.');

  return { ask, askAccount, at, says, answerLine, groups: () => rules.all, get seen() { return seen; }, get base() { return base; }, get told() { return told; } };
}

function speaksOf(element, ids) {
  const own = element.dataset.parts.split(' ');
  if (element.dataset.match === 'any') return ids.some((id) => own.includes(id));
  return own.length === ids.length && own.every((id) => ids.includes(id));
}

// "Pull 120 newtons", or what the rig does where no hand pulls.
export function pulls(seen) {
  const hand = seen.parts.find((part) => part.kind === 'hand');
  const found = hand?.says.match(/pulls (.+?)(?: up| down)?$/);
  return found && seen.status === 'holds' ? `Pull ${found[1]}` : seen.says.replace(/\.$/, '');
}

function statusLine({ status, says, svg }) {
  const strong = { impossible: 'No pull can hold this rig.', indeterminate: 'Not settled:', slack: 'Slack:', accelerates: 'It speeds up:' }[status];
  if (!strong) return null;
  return [strong, status === 'impossible' ? `It can be ${svg ? 'drawn, ' : ''}rove and explained; it cannot be held.` : says];
}

function lower(text) { return text[0].toLowerCase() + text.slice(1); }
