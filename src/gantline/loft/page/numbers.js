// Numbers as they are written in a slip, and the graduations of a rule. Nothing here computes physics.

const NICE = [1, 1.5, 2, 3, 4, 6, 8, 10];
const ZERO = 10; // how far a rule goes whose value is nought

// The value of a written number: decimals, powers and fractions.
export function valueOf(written) {
  const [over, under = '1'] = written.split('/');
  return Number(over) / Number(under);
}

// A number as short as it can be at the given step.
export function shorten(value, step) {
  const places = Math.max(0, Math.min(9, -Math.floor(Math.log10(step) + 1e-9)));
  const text = value.toFixed(places);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

export function nice(least) {
  const power = 10 ** Math.floor(Math.log10(least));
  return NICE.map((each) => each * power).find((each) => each >= least * (1 - 1e-9));
}

// Where a rule begins and ends, its graduation, and how finely a pin can be set. `signed`: to both sides of nought.
export function scale(value, kind, signed = false) {
  if (kind === 'ratio') {
    const low = value >= 80 ? 80 : value >= 50 ? 50 : 0;
    return { low, high: 100, grade: low === 80 ? 0.5 : 1, fine: 0.1 };
  }
  const high = nice(Math.abs(value) * 1.6 || ZERO), low = signed ? -high : 0, grade = nice((high - low) / 41);
  return { low, high, grade, fine: grade / 10 };
}

// Marks to write under a rule of a width: the ends and the middle of a short one, every round number of a long one.
export function labels({ low, high }, width) {
  if (width < 400) return [low, (low + high) / 2, high];
  const step = nice((high - low) / 9 * 0.999), found = [];
  for (let at = low; at <= high + step * 1e-6; at += step) found.push(at);
  return found;
}

// Up and Down in a field: by one (or ten) of the last digit that stands there.
export function nudge(written, by) {
  const found = written.match(/^(\s*(?:[A-Za-z]\w*\s*=\s*)?)(-?\d+(?:\.(\d+))?)(.*)$/);
  if (!found) return written;
  const places = found[3]?.length || 0;
  return `${found[1]}${(Number(found[2]) + by * 10 ** -places).toFixed(places)}${found[4]}`;
}
