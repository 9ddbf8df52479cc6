// Where everything of a figure stands on the page: boxes of parts, what a word must keep off, and the nearest part a way.

const LEAST = 24; // px, of anything that can be pointed at
const ONE_OF_EACH = new Set(['bare', 'labelled', 'numbered', 'cut', 'tensions', 'ask', 'count', 'equal', 'solve', 'units']);
const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

// The boxes of parts in px of `home`, by part id; parts that the figure does not show have none.
export function boxes(home, svg, parts) {
  const origin = home.getBoundingClientRect(), single = ONE_OF_EACH.has(svg.dataset.view);
  const found = new Map();
  for (const part of parts) {
    let marks = [...svg.querySelectorAll(chooser(part))];
    if (!marks.length && part.kind === 'rope') marks = [...svg.querySelectorAll(`[data-part="${CSS.escape(part.id)}"]`)];  // one end only
    const all = (single ? marks : marks.slice(0, 1)).map((mark) => mark.getBoundingClientRect()).filter((box) => box.width + box.height);
    if (all.length) found.set(part.id, grown(union(all), origin));
  }
  return found;
}

function chooser({ id, kind }) {
  const name = CSS.escape(id);
  if (kind === 'strand') return `line[data-strand="${name}"]`;
  if (kind === 'sheave') return `circle.wheel[data-sheave="${name}"],circle.wheel-p[data-sheave="${name}"]`;
  if (kind === 'rope') return `line[data-part="${name}"][data-strand]`;
  if (kind === 'beam') return '[data-layer="ground"] line[data-part="beam"]';
  if (kind === 'hand') return '[data-layer="hand"] [data-part="hand"]';
  return `[data-layer="body"] [data-part="${name}"]:not(text)`;
}

function union(all) {
  return {
    left: Math.min(...all.map((box) => box.left)), top: Math.min(...all.map((box) => box.top)),
    right: Math.max(...all.map((box) => box.right)), bottom: Math.max(...all.map((box) => box.bottom)),
  };
}

function grown({ left, top, right, bottom }, origin) {
  const width = Math.max(right - left, LEAST), height = Math.max(bottom - top, LEAST);
  return { left: (left + right - width) / 2 - origin.left, top: (top + bottom - height) / 2 - origin.top, width, height };
}

// The part that is nearest that way: ahead of it, and more ahead than aside.
export function nearest(found, from, key) {
  const [dx, dy] = WAYS[key], here = middle(found.get(from));
  let best = null, least = Infinity;
  for (const [id, box] of found) {
    const there = middle(box), along = (there.x - here.x) * dx + (there.y - here.y) * dy;
    const aside = Math.abs((there.x - here.x) * dy) + Math.abs((there.y - here.y) * dx);
    const cost = along + 2 * aside;
    if (id !== from && along > 4 && aside < 3 * along && cost < least) [best, least] = [id, cost];
  }
  return best;
}

export const isWay = (key) => key in WAYS;

function middle({ left, top, width, height }) { return { x: left + width / 2, y: top + height / 2 }; }

// Places for words, one after the other: each takes the candidate that covers least of what is there already.
export class Places {
  constructor(home, svg) {
    this.origin = home.getBoundingClientRect();
    this.room = { width: home.clientWidth, height: home.clientHeight };
    this.taken = [...svg.querySelectorAll('[data-part]')].filter((mark) => !/^(beam|paper|caption)$/.test(mark.dataset.part) || mark.tagName === 'line')
      .map((mark) => this.local(mark.getBoundingClientRect())).filter(({ width, height }) => width + height > 0).map((box) => padded(box, 3));
  }

  local({ left, top, width, height }) { return { left: left - this.origin.left, top: top - this.origin.top, width, height }; }

  keepOff(box) { this.taken.push(box); }

  // `spots` are left-top corners, the best first; one that would stand outside is moved in.
  choose(width, height, spots) {
    let best = null, least = Infinity;
    spots.forEach(([left, top], rank) => {
      const box = this.inside({ left, top, width, height }), moved = Math.abs(box.left - left) + Math.abs(box.top - top);
      const cost = rank * 6 + 4 * moved + this.taken.reduce((sum, other) => sum + hidden(box, other), 0);
      if (cost < least) [best, least] = [box, cost];
    });
    this.taken.push(padded(best, 4));
    return best;
  }

  inside(box) {
    const left = Math.max(0, Math.min(box.left, this.room.width - box.width)), top = Math.max(0, Math.min(box.top, this.room.height - box.height));
    return { ...box, left, top };
  }
}

function padded({ left, top, width, height }, by) {
  return { left: left - by, top: top - by, width: width + 2 * by, height: height + 2 * by };
}

// What it costs to cover something: that it is done at all, and how much of it.
function hidden(a, b) {
  const across = Math.min(a.left + a.width, b.left + b.width) - Math.max(a.left, b.left);
  const down = Math.min(a.top + a.height, b.top + b.height) - Math.max(a.top, b.top);
  return across > 0 && down > 0 ? 60 + across * down : 0;
}
