// The rope in hand and the rings of the places it may go to, drawn over the figure.
import { draw } from './dom.js';

const RING = 13, EYE = 13, HANG = 56; // px of the figure: ring outside the rim, ring round a point, rope that hangs on

export function rings(place, state) {
  const { at } = place;
  if (!at) return [];
  const { x, y, r, side } = at, shown = [];
  if (state === 'pointed' || state === 'focus') shown.push(draw('circle', { class: 'spot', cx: x, cy: y, r: (r || 0) + RING - 2 }));
  if (at.new && r) shown.push(...ghost(at));
  const reach = r + RING;
  const half = side === 'over' ? `M${x - reach} ${y}A${reach} ${reach} 0 0 1 ${x + reach} ${y}` : `M${x - reach} ${y}A${reach} ${reach} 0 0 0 ${x + reach} ${y}`;
  if (!r) { if (state !== 'offered' || !place.quiet) shown.push(draw('circle', { class: `ring ${state}`, cx: x, cy: y, r: EYE })); }
  else if (state === 'focus') shown.push(draw('circle', { class: 'ring focus', cx: x, cy: y, r: reach }));
  else shown.push(draw('path', { class: `ring ${state}`, d: half }));
  if (place.half) shown.push(draw('path', { class: 'hit', d: `${half}Z`, 'data-place': place.id }));
  else shown.push(draw('circle', { class: 'hit', cx: x, cy: y, r: Math.max(reach, EYE), 'data-place': place.id }));
  return shown;
}

// A wheel that is not there yet, on the bar that would carry it.
function ghost({ x, y, r, bar }) {
  const wheel = [draw('circle', { class: 'ghost-wheel', cx: x, cy: y, r }), draw('circle', { class: 'ghost-wheel', cx: x, cy: y, r: 4 })];
  if (bar) wheel.push(draw('path', { class: 'ghost-wheel', d: `M${bar[0]} ${bar[1]}H${x}V${y}` }));
  return wheel;
}

// The rope from its free end to a place: laid in, not yet laid.
export function laidIn(end, place, lay) {
  const { x, y, r, side } = place.at;
  if (!end) return [];
  if (!r) return rope(`M${end.x} ${end.y}L${x} ${y}`, lay);
  const near = end.x <= x ? x - r : x + r, far = 2 * x - near, over = side === 'over';
  const turn = (end.x <= x) === over ? 1 : 0;
  return rope(`M${end.x} ${end.y}L${near} ${y}A${r} ${r} 0 0 ${turn} ${far} ${y}V${y + (over ? HANG : -HANG)}`, lay);
}

export function toPointer(end, point, lay) { return end ? rope(`M${end.x} ${end.y}L${point.x} ${point.y}`, lay) : []; }

function rope(d, lay) {
  return [draw('path', { class: 'coming-case', d }), draw('path', { class: `coming lay${lay}`, d })];
}
