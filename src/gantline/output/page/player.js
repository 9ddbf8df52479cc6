// The player of a lesson. Every step and plate is on the page already; this only shows the present one.
const calm = matchMedia('(prefers-reduced-motion: reduce)');
const HAUL_MS = 4000, REST_MS = 900;

function ground() {
  const button = document.querySelector('.ground'), root = document.documentElement;
  const system = matchMedia('(prefers-color-scheme: dark)');
  const dark = () => (root.dataset.ground || (system.matches ? 'dark' : 'light')) === 'dark';
  const name = () => { button.textContent = dark() ? 'Light page' : 'Dark page'; };
  button.hidden = false;
  button.addEventListener('click', () => { root.dataset.ground = dark() ? 'light' : 'dark'; name(); });
  system.addEventListener('change', name);
  name();
}

function contents() {
  const links = new Map();
  for (const link of document.querySelectorAll('.head .places a')) links.set(link.hash.slice(1), link);
  const seen = new IntersectionObserver((entries) => {
    for (const entry of entries) {
      if (!entry.isIntersecting) continue;
      for (const link of links.values()) link.removeAttribute('aria-current');
      links.get(entry.target.id).setAttribute('aria-current', 'location');
    }
  }, { rootMargin: '-20% 0px -75% 0px' });
  for (const id of links.keys()) seen.observe(document.getElementById(id));
}

// "about 72,5 N" is 72.5; nothing that is no number is guessed at.
function numberIn(text) {
  const found = text.replace(/[−–]/g, '-').match(/-?\d[\d\u00a0 ]*(?:[.,]\d+)?/);
  return found ? Number(found[0].replace(/[\u00a0 ]/g, '').replace(',', '.')) : NaN;
}

function stage(section) {
  for (const fold of section.querySelectorAll('.reveal')) fold.replaceWith(...fold.querySelectorAll('.step'));
  const steps = [...section.querySelectorAll('.step')];
  const rail = section.querySelector('.rail');
  if (!rail) return;
  const marks = [...rail.querySelectorAll('.mark')], live = section.querySelector('.said');
  const [back, next, play] = ['.back', '.next', '.play'].map((name) => rail.querySelector(name));
  const ask = section.querySelector('.ask'), haul = hauler(section);
  let now = 0, timer = 0, kept = null;

  function show(number, speak = true) {
    now = Math.max(0, Math.min(steps.length - 1, number));
    const step = steps[now], asks = 'asks' in step.dataset;
    steps.forEach((each, n) => each.toggleAttribute('data-now', n === now));
    marks.forEach((mark, n) => {
      mark.dataset.state = n < now ? 'passed' : n === now ? 'now' : 'ahead';
      mark.setAttribute('aria-checked', String(n === now));
      mark.tabIndex = n === now ? 0 : -1;
    });
    section.classList.toggle('asking', asks);
    section.classList.toggle('later', now > 0);
    back.setAttribute('aria-disabled', String(now === 0));
    next.setAttribute('aria-disabled', String(now === steps.length - 1));
    next.classList.toggle('main', !asks && now < steps.length - 1);
    const say = step.querySelector('.reply:not([hidden])') || step.querySelector('.say');
    if (speak) live.textContent = `${step.querySelector('.place').textContent}. ${say.textContent}`;
    if (haul) haul.enter('hauls' in step.dataset);
    if (speak) settle(say);
  }

  // Plate and sentence must be in sight: bring the stage to the top, and on a small screen the sentence above the rail.
  function settle(say) {
    const picture = steps[now].querySelector('.picture');
    const hidden = () => {
      const box = say.getBoundingClientRect();
      return box.top < 0 || box.bottom > rail.getBoundingClientRect().top;
    };
    if (hidden() || picture.getBoundingClientRect().top < 0) section.scrollIntoView({ block: 'start' });
    if (hidden()) say.scrollIntoView({ block: 'nearest' });
  }

  function pause() {
    clearTimeout(timer);
    timer = 0;
    play.querySelector('.label').textContent = 'Play';
  }

  function wait() {
    const step = steps[now];
    if ('waits' in step.dataset || now === steps.length - 1) { pause(); return; }
    const least = haul && 'hauls' in step.dataset && !calm.matches ? HAUL_MS + REST_MS : 0;
    timer = setTimeout(() => { show(now + 1); wait(); }, Math.max(least, 1000 * Number(step.dataset.seconds), 2500));
  }

  function toggle() {
    if (timer) { pause(); return; }
    if (now === steps.length - 1) show(0); else if ('waits' in steps[now].dataset) show(now + 1);
    play.querySelector('.label').textContent = 'Pause';
    wait();
  }

  function go(number) { pause(); show(number); }

  back.addEventListener('click', () => go(now - 1));
  next.addEventListener('click', () => go(now + 1));
  play.addEventListener('click', toggle);
  marks.forEach((mark, n) => mark.addEventListener('click', () => go(n)));

  function keys(event) {
    if (event.ctrlKey || event.altKey || event.metaKey || event.target.matches('input')) return;
    const button = event.target.closest('button');
    const moves = { ArrowLeft: now - 1, ArrowRight: now + 1, Home: 0, End: steps.length - 1 };
    if (event.key in moves) {
      go(moves[event.key]);
      if (button && button.matches('.mark')) marks[now].focus();
    } else if (event.key === ' ' && (!button || button.matches('.mark'))) toggle();
    else if (event.key === 'Escape') pause();
    else return;
    event.preventDefault();
  }
  rail.addEventListener('keydown', keys);

  for (const step of steps) {
    const picture = step.querySelector('.picture');
    picture.tabIndex = 0;
    picture.setAttribute('role', 'group');
    picture.setAttribute('aria-label', 'Plate. Left and right arrows change the step.');
    picture.addEventListener('keydown', keys);
    let from = null;
    picture.addEventListener('touchstart', (event) => {
      from = event.touches.length === 1 && !event.target.closest('.slider') ? event.touches[0] : null;
    }, { passive: true });
    picture.addEventListener('touchend', (event) => {
      const to = event.changedTouches[0];
      if (!from || Math.abs(to.clientX - from.clientX) < 48) return;
      if (Math.abs(to.clientX - from.clientX) > 2 * Math.abs(to.clientY - from.clientY)) {
        go(now + (to.clientX < from.clientX ? 1 : -1));
      }
    }, { passive: true });
  }

  if (ask) {
    const field = ask.querySelector('input'), keep = ask.querySelector('.keep'), missing = ask.querySelector('.missing');
    ask.hidden = false;
    field.addEventListener('input', () => {
      const ready = Number.isFinite(numberIn(field.value));
      keep.setAttribute('aria-disabled', String(!ready));
      keep.classList.toggle('main', ready);
      if (ready) missing.textContent = '';
    });
    ask.addEventListener('submit', (event) => {
      event.preventDefault();
      const number = numberIn(field.value);
      if (!Number.isFinite(number)) {
        missing.textContent = 'Write a number first, or go on without one.';
        field.focus();
        return;
      }
      kept = number;
      reply(section, kept);
      onward();
    });
    ask.querySelector('.without').addEventListener('click', () => {
      kept = null;
      reply(section, kept);
      onward();
    });
  }

  function onward() {
    go(now + 1);
    marks[now].focus({ preventScroll: true });
  }

  section.classList.add('playing');
  rail.hidden = false;
  show(0, false);
}

// Shows the reply that fits the number kept: the same, a named wrong rule, or neither.
function reply(section, kept) {
  const all = [...section.querySelectorAll('.reply')];
  const fits = (each) => kept >= Number(each.dataset.low) && kept <= Number(each.dataset.high);
  const banded = all.filter((each) => 'low' in each.dataset);
  const found = kept === null ? null : banded.find(fits) || all.find((each) => !('low' in each.dataset));
  for (const each of all) {
    each.hidden = each !== found;
    each.querySelector('.kept').textContent = kept === null ? '' : String(kept).replace('-', '−');
  }
}

// The rig of a step, hauled by a slider or by itself.
function hauler(section) {
  const box = section.querySelector('.hauling'), data = section.querySelector('.motion');
  if (!box || !data) return null;
  const { motion, ways } = JSON.parse(data.textContent);
  const svg = box.querySelector('svg'), slider = box.querySelector('input'), told = box.querySelector('output');
  const still = box.parentElement.querySelector('.plate-figure');
  const rig = Hauling(svg, motion);
  let frame = 0;

  function pose(share) {
    rig.pose(share);
    slider.value = String(Math.round(100 * share));
    told.textContent = ways.map(([name, way, unit]) => `${name} ${measured(way * share)} ${unit}`).join(', ');
  }

  function swap(moves) {
    still.hidden = moves;
    box.querySelector('.moving').hidden = !moves;
  }

  function run(start) {
    const step = (time) => {
      const t = Math.min(1, Math.max(0, time - start) / HAUL_MS);
      pose(t * t * (3 - 2 * t));
      frame = t < 1 ? requestAnimationFrame(step) : 0;
    };
    frame = requestAnimationFrame(step);
  }

  slider.addEventListener('input', () => {
    cancelAnimationFrame(frame);
    swap(true);
    pose(Number(slider.value) / 100);
  });
  box.hidden = false;
  swap(false);
  return {
    enter(here) {
      cancelAnimationFrame(frame);
      if (!here) return;
      swap(true);
      pose(calm.matches ? 1 : 0);
      swap(!calm.matches);
      if (!calm.matches) run(performance.now() + 400);
    },
  };
}

// The first stage shares its screen with what stands above it, so its plate is so much lower.
function first() {
  const section = document.querySelector('.stage'), head = document.querySelector('.head');
  if (!section) return; // a page without steps
  const fit = () => {
    const above = section.getBoundingClientRect().top + scrollY - head.offsetHeight;
    section.style.setProperty('--above', `${Math.max(0, Math.min(above, innerHeight / 4))}px`);
  };
  fit();
  addEventListener('resize', fit);
  document.fonts.ready.then(fit);
}

ground();
contents();
for (const section of document.querySelectorAll('.stage')) stage(section);
first();
