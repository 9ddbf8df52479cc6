// What is seen of a blank slip: a beam aloft and a floor, and nothing between them. All of it is drawn here, none of it read.
const WIDE = 180, DEEP = 240;

const hatched = (y) => Array.from({ length: 12 }, (_, n) => `M${2 + 14 * n} ${y}l12.6 -12.6`).join('');
const level = (y) => `<line class="shade" x1="0" x2="${WIDE}" y1="${y}" y2="${y}"/>`;

export const BLANK = {
  parts: [], givens: [], title: '', alt: 'A beam aloft and a floor below it; nothing hangs between them yet.',
  svg: `<svg xmlns="http://www.w3.org/2000/svg" class="plate" viewBox="-10 -20 ${WIDE + 20} ${DEEP + 40}" data-view="bare">`
    + `<path class="hair" d="${hatched(0)}${hatched(DEEP + 12.6)}"/>${level(0)}${level(DEEP)}</svg>`,
};
