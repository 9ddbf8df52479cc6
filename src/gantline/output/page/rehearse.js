'use strict';
// The rehearsal: the sound of each step is kept by itself, so that one can be taken again without the others.
const RATE = 48000, FADE = 0.005, BLOCK = 1024, LOUD = 0.985, SILENT = 0.01, FORMAT = 'gantline-taps/1';
const one = (selector, within = document) => within.querySelector(selector);
const all = (selector, within = document) => [...within.querySelectorAll(selector)];

// Runs beside the page, where no slow moment of the page can make a hole in the sound.
const TAPE = `registerProcessor('tape', class extends AudioWorkletProcessor {
  constructor() { super(); this.block = new Float32Array(${BLOCK}); this.held = 0; }
  process([[heard]]) {
    if (!this.held) this.from = currentFrame;
    if (heard) this.block.set(heard, this.held); else this.block.fill(0, this.held, this.held + 128);
    this.held += 128;
    if (this.held === ${BLOCK}) { this.port.postMessage({ from: this.from, sound: this.block.slice() }); this.held = 0; }
    return true;
  }
});`;

function ground() {
  const button = one('.ground'), root = document.documentElement;
  const system = matchMedia('(prefers-color-scheme: dark)');
  const dark = () => (root.dataset.ground || (system.matches ? 'dark' : 'light')) === 'dark';
  const name = () => { button.textContent = dark() ? 'Light page' : 'Dark page'; };
  button.hidden = false;
  button.addEventListener('click', () => { root.dataset.ground = dark() ? 'light' : 'dark'; name(); });
  system.addEventListener('change', name);
  name();
}

// -- sound --------------------------------------------------------------------------------------------------------

let shared = null;
function context() { return (shared = shared || new AudioContext()); }

// The microphone as a tape that can be cut at any frame. `heard` is told the peak of every block.
async function microphone(heard, gone) {
  const wanted = { channelCount: 1, echoCancellation: false, noiseSuppression: false, autoGainControl: false };
  const stream = await navigator.mediaDevices.getUserMedia({ audio: wanted });
  const ctx = context();
  await ctx.resume();
  await ctx.audioWorklet.addModule(`data:text/javascript,${encodeURIComponent(TAPE)}`);
  const tape = new AudioWorkletNode(ctx, 'tape', { numberOfOutputs: 0, channelCount: 1, channelCountMode: 'explicit' });
  let blocks = [], first = Infinity, ending = null;

  function piece(from, to) {
    const sound = new Float32Array(to - from);
    for (const block of blocks) {
      const a = Math.max(from, block.from), b = Math.min(to, block.from + BLOCK);
      if (a < b) sound.set(block.sound.subarray(a - block.from, b - block.from), a - from);
    }
    return sound;
  }
  tape.port.onmessage = ({ data }) => {
    heard(data.sound.reduce((most, x) => Math.max(most, Math.abs(x)), 0));
    if (data.from + BLOCK > first) blocks.push(data);
    if (!ending || data.from + BLOCK < ending.at) return;
    const { at, done } = ending, whole = piece(first, at);
    blocks = [];
    first = Infinity;
    ending = null;
    done(whole);
  };
  ctx.createMediaStreamSource(stream).connect(tape);
  stream.getAudioTracks()[0].addEventListener('ended', gone);
  // The frame at which something happened: `stamp` is when, on the page's clock.
  const frame = (stamp = performance.now()) =>
    Math.max(0, Math.round((ctx.currentTime - (performance.now() - stamp) / 1000) * ctx.sampleRate));
  return {
    frame,
    start(stamp) { first = frame(stamp); return first; },
    part: piece,
    // The frame up to which there is sound.
    reached: () => blocks.length ? blocks.at(-1).from + BLOCK : first,
    stop(stamp) { return new Promise((done) => { ending = { at: Math.max(first, frame(stamp)), done }; }); },
  };
}

// Whether the second take was spoken on from the first, without a break.
function follows(a, b) { return Boolean(a && b && a.run === b.run && a.at + a.sound.length === b.at); }

// What is recorded is kept in this browser, on this machine, as it is spoken: a tab that closes loses none of it.
// A take is kept by its step and its run, so that one that was cut short stands beside the whole one before it. All
// pages from disk share one store: the name and the rigs of the film (`name`) tell its takes from those of others.
function keeping(name) {
  const base = new Promise((done) => {
    try {
      const asked = indexedDB.open('gantline-rehearsal', 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore('takes');
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => done(null);
    } catch { done(null); }
  });
  // What was asked for, or null where this browser keeps nothing.
  const work = async (mode, act) => {
    const opened = await base;
    if (!opened) return null;
    return new Promise((done) => {
      const whole = opened.transaction('takes', mode), asked = act(whole.objectStore('takes'));
      whole.oncomplete = () => done(asked.result === undefined ? true : asked.result);
      whole.onabort = () => done(null);
    }).catch(() => null); // the store was let go of meanwhile, as where the browser forgets a site
  };
  return {
    put: (step, take) => work('readwrite', (all) => all.put({ step, ...take }, [name, step, take.run])),
    // The take of a step is whole: those of earlier runs go.
    settle: (step, run) => work('readwrite', (all) => all.delete(IDBKeyRange.bound([name, step], [name, step, run], false, true))),
    all: () => work('readonly', (all) => all.getAll(IDBKeyRange.bound([name], [name, []]))),
    clear: () => work('readwrite', (all) => all.delete(IDBKeyRange.bound([name], [name, []]))),
  };
}

// Where two takes were not spoken in one go, a few milliseconds of fade, so that the joint cannot be heard.
function joined(takes, rate) {
  const length = Math.round(FADE * rate), whole = new Float32Array(takes.reduce((sum, t) => sum + t.sound.length, 0));
  let at = 0;
  takes.forEach((take, n) => {
    const before = takes[n - 1], after = takes[n + 1], fade = Math.min(length, take.sound.length >> 1);
    whole.set(take.sound, at);
    for (let k = 0; k < fade; k += 1) {
      if (!follows(before, take)) whole[at + k] *= k / fade;
      if (!follows(take, after)) whole[at + take.sound.length - 1 - k] *= k / fade;
    }
    at += take.sound.length;
  });
  return whole;
}

async function resampled(sound, rate) {
  if (rate === RATE || !sound.length) return sound;
  const offline = new OfflineAudioContext(1, Math.round(sound.length * RATE / rate), RATE);
  const source = played(offline, sound, rate);
  source.start();
  return (await offline.startRendering()).getChannelData(0);
}

function played(ctx, sound, rate) {
  const source = ctx.createBufferSource();
  source.buffer = ctx.createBuffer(1, sound.length, rate);
  source.buffer.copyToChannel(sound, 0);
  source.connect(ctx.destination);
  return source;
}

function wav(sound) {
  const data = new DataView(new ArrayBuffer(44 + 2 * sound.length));
  const words = (at, text) => [...text].forEach((sign, n) => data.setUint8(at + n, sign.charCodeAt(0)));
  const long = (at, number) => data.setUint32(at, number, true), short = (at, number) => data.setUint16(at, number, true);
  words(0, 'RIFF'); long(4, 36 + 2 * sound.length); words(8, 'WAVEfmt '); long(16, 16); short(20, 1); short(22, 1);
  long(24, RATE); long(28, 2 * RATE); short(32, 2); short(34, 16); words(36, 'data'); long(40, 2 * sound.length);
  sound.forEach((x, n) => data.setInt16(44 + 2 * n, Math.round(32767 * Math.max(-1, Math.min(1, x))), true));
  return new Blob([data.buffer], { type: 'audio/wav' });
}

function download(name, blob) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

const WHY_NOT = {
  NotAllowedError: 'The browser was told not to listen. Allow this page the microphone, then press again.',
  NotFoundError: 'No microphone was found. Plug one in, then press again.',
  NotReadableError: 'Another program holds the microphone. Close that, then press again.',
};
const NO_MICROPHONE = 'This browser gives no microphone to a page opened from disk. Open it in another browser, or serve '
  + 'its folder on your own machine: python3 -m http.server --bind 127.0.0.1';

// -- the page -----------------------------------------------------------------------------------------------------

function rehearsal() {
  const { name, steps } = JSON.parse(one('#shots').textContent);
  const stage = one('.stage'), rail = one('.rail'), live = one('.said'), doing = one('.doing'), how = one('.kept-how');
  const [back, next, record, retake, hear, listen] =
    ['back', 'next', 'record', 'retake', 'hear', 'listen'].map((each) => one(`.${each}`));
  const shown = all('.step'), marks = all('.mark'), rows = all('.take'), strands = all('.strand');
  const takes = steps.map(() => null);
  let now = 0, mic = null, cuts = null, alone = false, playing = null, held = 0, drawn = 0, runs = 0;
  const unsaved = new Set();  // which of the two files the takes are not in yet
  let ending = Promise.resolve(), beat = 0, still = new Set();
  const store = keeping([name, ...new Set(steps.map(({ step }) => step.split('/')[0]))].join(' ')), letGo = one('.let-go');

  const label = (button, words) => { (one('.label', button) || button).textContent = words; };
  const ready = (button, can) => button.setAttribute('aria-disabled', String(!can));
  const rate = () => context().sampleRate;
  const seconds = (take) => take.sound.length / take.rate;

  function remark(take, step) {
    if (!take) return '';
    if (take.peak < SILENT) return 'silent: is the microphone the right one?';
    if (take.peak > LOUD) return 'too loud, it is clipped: go back from the microphone';
    if (take.says && take.says !== step.says) return 'spoken before its sentence was changed';
    return take.doubt || '';
  }

  function show(number, speak = true) {
    if (playing) playing.stop();
    now = Math.max(0, Math.min(steps.length - 1, number));
    shown.forEach((step, n) => step.toggleAttribute('data-now', n === now));
    strands.forEach((strand, n) => { strand.hidden = n !== steps[now].act; });
    stage.classList.toggle('later', now > 0 || Boolean(mic));
    if (speak) {  // while a take runs, no screen reader speaks into it
      one('.say', shown[now]).scrollIntoView({ block: 'nearest' });
      const place = one('.place', shown[now]).textContent;
      live.textContent = cuts ? '' : `${place}. ${one('.say', shown[now]).textContent}`;
    }
    tell();
  }

  function tell() {
    stage.classList.toggle('recording', Boolean(cuts));
    stage.classList.toggle('listening', Boolean(mic));
    marks.forEach((mark, n) => {
      const odd = remark(takes[n], steps[n]), taken = takes[n] || (cuts && cuts.some((cut) => cut.step === n));
      mark.dataset.state = n === now ? 'now' : taken ? 'passed' : 'ahead';
      mark.toggleAttribute('data-odd', Boolean(odd));
      mark.setAttribute('aria-checked', String(n === now));
      mark.tabIndex = n === now ? 0 : -1;
      const plain = mark.getAttribute('aria-label').split(', ')[0];
      mark.setAttribute('aria-label', `${plain}${takes[n] ? ', recorded' : ''}${odd ? `, ${odd}` : ''}`);
    });
    rows.forEach((row, n) => {
      one('.took', row).textContent = takes[n] ? `${seconds(takes[n]).toFixed(1)} s` : '–';
      one('.remark', row).textContent = remark(takes[n], steps[n]);
      ready(one('.hear-row', row), takes[n] && !cuts);
      for (const button of all('.shift', row)) ready(button, follows(takes[n - 1], takes[n]) && !cuts);
    });
    label(back, cuts ? 'Again' : 'Back');
    ready(back, cuts || now > 0);
    ready(next, cuts || now < steps.length - 1);
    next.classList.toggle('main', Boolean(cuts));
    record.classList.toggle('main', Boolean(mic) && !cuts);
    label(record, cuts ? 'Stop' : 'Record');
    ready(record, mic);
    ready(retake, mic && takes[now] && !cuts);
    ready(hear, takes[now] && !cuts);
    const made = takes.filter(Boolean);
    for (const button of [one('.save-sound'), one('.save-taps')]) {
      ready(button, made.length);
      button.classList.toggle('main', made.length > 0);
    }
    letGo.hidden = !made.length || Boolean(cuts);
    const missing = steps.length - made.length, sum = made.reduce((total, take) => total + seconds(take), 0);
    one('.total').textContent = `${made.length} of ${steps.length} steps taken, ${sum.toFixed(1)} s in all`
      + (made.length && missing ? `; ${missing} without a take.` : '.');
    state();
  }

  function state(words = '') {
    if (words) doing.textContent = words;
    else if (!mic) doing.textContent = doing.dataset.trouble || 'The microphone is off.';
    else if (!cuts) doing.textContent = `Listening: ${heardAs(held)}.`;
    else {
      const far = (mic.frame() - cuts.at(-1).at) / rate();
      doing.textContent = `Recording, ${far.toFixed(0)} s; the words take about ${steps[now].seconds.toFixed(0)} s.`;
    }
  }

  // -- recording ----------------------------------------------------------------------------------------------------

  const heardAs = (peak) => peak < SILENT ? 'no sound' : peak < 0.06 ? 'quiet' : peak < 0.7 ? 'good' : 'too loud';

  function level(peak) {
    held = Math.max(peak, 0.9 * held);
    const time = performance.now();
    if (time - drawn < 80) return;
    drawn = time;
    const part = held > 0.001 ? 1 + 20 * Math.log10(held) / 48 : 0;
    const meter = one('.meter');
    one('.fill').style.transform = `scaleX(${Math.max(0, Math.min(1, part)).toFixed(3)})`;
    meter.setAttribute('aria-valuenow', String(Math.round(100 * Math.max(0, Math.min(1, part)))));
    meter.setAttribute('aria-valuetext', heardAs(held));
    state();
  }

  async function open() {
    if (mic) return;
    if (!navigator.mediaDevices) { state(doing.dataset.trouble = NO_MICROPHONE); return; }
    try {
      mic = await microphone(level, () => { finish(); mic = null; listen.classList.remove('on'); tell(); });
      listen.classList.add('on');
      doing.parentElement.removeAttribute('role');  // from here on it changes all the time
      record.focus({ preventScroll: true });
      show(now, false);
    } catch (error) {
      state(doing.dataset.trouble = WHY_NOT[error.name] || `The microphone cannot be used: ${error.message}.`);
    }
  }

  function start(only, stamp) {
    if (playing) playing.stop();
    alone = only;
    runs = newRun();
    cuts = [{ step: now, at: mic.start(stamp) }];
    still = new Set();
    beat = setInterval(keepOn, 2000);
    show(now);
  }

  // The time, so that no two windows give their takes one number; later than all that are kept.
  const newRun = () => Math.max(runs + 1, Date.now());
  const loudest = (sound) => sound.reduce((most, x) => Math.max(most, Math.abs(x)), 0);

  // Keeps what has been spoken so far of a take that still runs.
  function keepOn() {
    if (!cuts) return;
    const reached = mic.reached();
    cuts.forEach(({ step, at }, n) => {
      const end = cuts[n + 1] ? cuts[n + 1].at : Infinity, whole = reached >= end;
      const sound = still.has(n) || reached <= at ? null : mic.part(at, Math.min(end, reached));
      if (!sound) return;
      if (whole) still.add(n);
      keep(step, { sound, rate: rate(), run: runs, at, peak: loudest(sound), says: steps[step].says, short: !whole });
    });
  }

  async function keep(step, take) {
    if (await store.put(steps[step].step, take)) { if (!take.short) store.settle(steps[step].step, take.run); } else notKept();
  }

  function notKept() {
    how.textContent = 'This browser keeps nothing of this page: save both files before you close it.';
  }

  async function restore() {
    const kept = await store.all();
    if (!kept) { notKept(); return; }
    const of = new Map(steps.map((each, n) => [each.step, n]));
    kept.sort((a, b) => Number(b.short) - Number(a.short) || a.run - b.run);  // whole ones last, the newest last
    for (const { step, short, ...take } of kept) {
      runs = Math.max(runs, take.run);
      if (!of.has(step) || (takes[of.get(step)] && !takes[of.get(step)].kept)) continue;
      takes[of.get(step)] = { ...take, kept: true, doubt: short ? 'cut short: the page was closed in the middle of it' : take.doubt };
    }
    const count = takes.filter((take) => take && take.kept).length;
    if (!count) return;
    const words = `${count} of ${steps.length} steps are here from before, kept in this browser. Go on, or let go of them below.`;
    how.textContent = words;
    tell();
    state(words);
  }

  // A press on: the next step begins here. On the last step, or where one step is taken again, the take ends here.
  function forward({ timeStamp }) {
    if (!cuts) { show(now + 1); return; }
    if (alone || now === steps.length - 1) { finish(timeStamp); return; }
    cuts.push({ step: now + 1, at: mic.frame(timeStamp) });
    show(now + 1);
  }

  // The present step from its beginning, as if it had not been begun: what was said of it falls away.
  function again({ timeStamp }) {
    if (!cuts) { show(now - 1); return; }
    cuts.push({ step: now, at: mic.frame(timeStamp) });
    tell();
  }

  function finish(stamp) {
    if (!cuts) return ending;
    const made = cuts, run = runs;
    clearInterval(beat);
    cuts = null;
    ending = mic.stop(stamp).then((sound) => {
      const first = made[0].at, ends = [...made.slice(1).map((cut) => cut.at), first + sound.length];
      made.forEach(({ step, at }, n) => {
        const own = sound.slice(at - first, ends[n] - first);
        if (!own.length) return;
        takes[step] = { sound: own, rate: rate(), run, at, peak: loudest(own), says: steps[step].says };
        keep(step, { ...takes[step], short: false });
      });
      unsaved.add('wav').add('taps');
      tell();
    });
    tell();
    return ending;
  }

  // -- hearing, saving, opening ---------------------------------------------------------------------------------------

  async function play(number = now, most = undefined) {
    const heard = playing;
    if (heard) heard.stop();
    if (heard && heard.step === number && !most) return;
    await context().resume();
    const source = played(context(), takes[number].sound, takes[number].rate);
    playing = source;
    source.step = number;
    source.addEventListener('ended', () => {
      if (playing !== source) return;
      playing = null;
      label(hear, 'Hear it');
    });
    source.start(0, 0, most);
    label(hear, number === now ? 'Stop' : 'Hear it');
  }

  // Moves the start of a step within what was spoken in one go: the sound passes from the one take to the other.
  function shift(number, by) {
    const a = takes[number - 1], b = takes[number], least = Math.round(0.1 * a.rate);
    const whole = new Float32Array(a.sound.length + b.sound.length);
    whole.set(a.sound);
    whole.set(b.sound, a.sound.length);
    const at = Math.max(least, Math.min(whole.length - least, a.sound.length + Math.round(by * a.rate)));
    takes[number - 1] = { ...a, sound: whole.slice(0, at) };
    takes[number] = { ...b, sound: whole.slice(at), at: a.at + at, doubt: '' };
    for (const step of [number - 1, number]) keep(step, { ...takes[step], short: false });
    unsaved.add('wav').add('taps');
    tell();
    play(number, 2);
  }

  async function sound() {
    const made = takes.filter(Boolean);
    download(`${name}.wav`, wav(await resampled(joined(made, made[0].rate), made[0].rate)));
    saved('wav');
  }

  function taps() {
    let at = 0;
    const record = { format: FORMAT, seconds: 0, steps: [] };
    takes.forEach((take, n) => {
      if (!take) return;
      record.steps.push({ step: steps[n].step, start: Number(at.toFixed(6)), says: take.says });
      at += seconds(take);
    });
    record.seconds = Number(at.toFixed(6));
    download(`${name}.taps.json`, new Blob([`${JSON.stringify(record, null, 1)}\n`], { type: 'application/json' }));
    saved('taps');
  }

  function saved(file) {
    unsaved.delete(file);
    how.textContent = unsaved.size ? 'Save the other file too: the film needs both.' : `With both files: gantline film … --voice ${name}.wav --taps ${name}.taps.json`;
  }

  async function reopen(files) {
    const [tapes, lists] = ['.wav', '.json'].map((end) => files.filter((file) => file.name.endsWith(end)));
    try {
      if (tapes.length !== 1 || lists.length !== 1) throw new Error('choose one .wav and its .taps.json');
      const list = JSON.parse(await lists[0].text());
      if (list.format !== FORMAT) throw new Error(`${lists[0].name} holds no taps`);
      const buffer = await context().decodeAudioData(await tapes[0].arrayBuffer());
      const whole = buffer.getChannelData(0), bounds = [...list.steps.map((tap) => tap.start), list.seconds];
      runs = newRun();
      list.steps.forEach((tap, n) => {
        const step = steps.findIndex((each) => each.step === tap.step);
        const [at, end] = [bounds[n], bounds[n + 1]].map((each) => Math.round(each * buffer.sampleRate));
        if (step < 0 || !(end > at)) return;
        const own = whole.slice(at, end);
        takes[step] = { sound: own, rate: buffer.sampleRate, run: runs, at, peak: loudest(own), says: tap.says, doubt: tap.doubt };
        keep(step, { ...takes[step], short: false });
      });
      how.textContent = 'Opened. Hear where each step begins, take again what you like, then save.';
    } catch (error) {
      how.textContent = `Not opened: ${error.message}.`;
    }
    tell();
  }

  // -- what is pressed ----------------------------------------------------------------------------------------------

  const MISSING = {
    record: 'Turn on the microphone first.', retake: 'There is no take of this step yet.',
    hear: 'There is no take of this step yet.', 'hear-row': 'There is no take of this step yet.',
    shift: 'Its start can be moved only where it was spoken on from the step before.', 'save-sound': 'There is no take yet.', 'save-taps': 'There is no take yet.',
  };
  function press(button, act) {
    button.addEventListener('click', (event) => {
      if (button.getAttribute('aria-disabled') !== 'true') { act(event); return; }
      const what = mic || button !== retake ? Object.keys(MISSING).find((each) => button.matches(`.${each}`)) : 'record';
      if (!what) return;
      if (rail.contains(button)) { live.textContent = MISSING[what]; state(MISSING[what]); } else how.textContent = MISSING[what];
    });
  }
  press(back, again);
  press(next, forward);
  press(record, ({ timeStamp }) => { if (cuts) finish(timeStamp); else start(false, timeStamp); });
  press(retake, ({ timeStamp }) => start(true, timeStamp));
  press(hear, () => play());
  press(listen, open);
  press(one('.save-sound'), sound);
  press(one('.save-taps'), taps);
  letGo.addEventListener('click', () => {
    const count = takes.filter(Boolean).length;
    if (!confirm(`Let go of ${count} ${count === 1 ? 'take' : 'takes'}? What is not in saved files is gone then.`)) return;
    takes.fill(null);
    unsaved.clear();
    store.clear();
    how.textContent = 'Nothing is kept any more.';
    tell();
  });
  const go = (number) => finish().then(() => show(number));
  marks.forEach((mark, n) => mark.addEventListener('click', () => go(n)));
  rows.forEach((row, n) => one('.go', row).addEventListener('click', () => {
    go(n).then(() => { stage.scrollIntoView(); marks[n].focus({ preventScroll: true }); });
  }));
  rows.forEach((row, n) => {
    press(one('.hear-row', row), () => play(n));
    press(one('.earlier', row), () => shift(n, -0.1));
    press(one('.later', row), () => shift(n, 0.1));
  });
  one('#saved').addEventListener('change', (event) => reopen([...event.target.files]));

  addEventListener('keydown', (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey || event.target.matches('input')) return;
    const ends = cuts ? {} : { Home: () => show(0), End: () => show(steps.length - 1) };
    const keys = { ArrowRight: forward, PageDown: forward, ArrowLeft: again, PageUp: again, ...ends,
      Escape: () => finish(event.timeStamp) };
    if (!(event.key in keys) || event.repeat) return;
    keys[event.key](event);
    if (event.target.matches('.mark')) marks[now].focus();
    event.preventDefault();
  });
  addEventListener('beforeunload', (event) => { if (unsaved.size || cuts) event.preventDefault(); });
  addEventListener('pagehide', keepOn);

  stage.classList.add('playing', 'rehearsal');
  for (const hidden of [rail, one('.microphone'), one('.takes')]) hidden.hidden = false;
  show(0, false);
  restore();
}

ground();
rehearsal();
