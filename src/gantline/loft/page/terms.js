// Letters of a formula speak of parts too: pointing at W lights what weighs it.

const givenBy = (letter, seen) => seen.givens.filter((each) => each.symbol.replace('_', '') === letter);

// The parts a letter stands for, empty where it stands for none; whole ropes and bodies before their strands.
function meant(letter, seen) {
  const given = givenBy(letter, seen);
  if (given.length) return given.flatMap((each) => [each.id, ...[each.part, each.other].filter(Boolean)]);
  const parts = seen.parts.filter((part) => part.letters?.includes(letter));
  const whole = parts.filter((part) => part.kind !== 'strand');
  return (whole.length ? whole : parts).map((part) => part.id);
}

// Whether a letter is lit: where one given is, of the letters that are given only its own.
function shines(letter, seen, ids) {
  const given = givenBy(letter, seen), one = seen.givens.some(({ id }) => ids.includes(id));
  return one && given.length ? given.some(({ id }) => ids.includes(id)) : meant(letter, seen).some((id) => ids.includes(id));
}

const TERMS = 'msub, mi:not(msub mi)';

export function Terms(places, light, seeing) {
  // What is lit lights its letters too, in every formula, also in one that has only just come.
  function mark() {
    const { seen } = seeing(), ids = light.ids, known = new Map();
    for (const term of places.flatMap((place) => [...place.querySelectorAll(TERMS)])) {
      const letter = term.textContent;
      if (seen && ids.length && !known.has(letter)) known.set(letter, shines(letter, seen, ids));
      term.classList.toggle('lit', ids.length > 0 && known.get(letter) === true);
    }
  }
  light.addEventListener('lit', mark);
  const come = new MutationObserver(() => { if (light.ids.length) mark(); });

  for (const place of places) {
    come.observe(place, { childList: true, subtree: true });
    let own = false;
    // A move comes after the step around the letter has been entered, which lights all its parts.
    place.addEventListener('pointermove', (event) => {
      const term = event.target.closest('msub') || event.target.closest('mi'), { seen, says } = seeing();
      const ids = term && seen ? meant(term.textContent, seen) : [];
      const around = event.target.closest('[data-parts]')?.dataset.parts.split(' ');
      if (ids.length) light.show(ids, `${term.textContent}: ${says(ids.at(-1)) || ''}`);
      else if (own) light.show(around || null);
      own = ids.length > 0;
    });
    place.addEventListener('pointerleave', () => { if (own) light.show(null); own = false; });
  }
}
