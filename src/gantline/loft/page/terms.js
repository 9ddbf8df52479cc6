// Letters of a formula speak of parts too: pointing at W lights what weighs it.

// The parts a letter stands for, empty where that cannot be told from the letter alone.
function meant(letter, seen) {
  const given = seen.givens.filter((each) => each.symbol.replace('_', '') === letter);
  if (given.length) return given.flatMap((each) => [each.id, ...(each.part ? [each.part] : [])]);
  const hand = seen.parts.some((part) => part.kind === 'hand'), ropes = seen.parts.filter((part) => part.kind === 'rope');
  if (letter === 'F' && hand) return ['hand'];
  return letter === 'T' && ropes.length === 1 ? [ropes[0].id] : [];
}

export function Terms(places, light, seeing) {
  for (const place of places) {
    let last = null;
    place.addEventListener('pointerover', (event) => {
      const term = event.target.closest('msub, mi'), seen = seeing().seen;
      if (term === last) return;
      if (last) light.show(null);
      last = term;
      const ids = term && seen ? meant(term.textContent, seen) : [];
      if (ids.length) light.show(ids, `${term.textContent}: ${seeing().says(ids.at(-1)) || ''}`);
    });
    place.addEventListener('pointerleave', () => { if (last) light.show(null); last = null; });
  }
}
