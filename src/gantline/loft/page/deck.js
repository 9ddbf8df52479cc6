// What screen and words window share: which step it is, and the words between them. No server is needed for it.

// Each screen and its words window have a line of their own: two rigs may be presented at once.
export const channelOf = (screen) => new BroadcastChannel(`gantline present ${screen}`);

// How long the steps from `at` on take to say, in seconds.
export function toGo(steps, at) {
  return steps.slice(at).reduce((sum, step) => sum + step.seconds + step.pause, 0);
}

// "3 min 10 s", "40 s".
export function minutes(seconds) {
  const whole = Math.max(0, Math.round(seconds / 5) * 5), min = Math.floor(whole / 60);
  return min ? `${min} min ${whole % 60} s` : `${whole} s`;
}

// What keys do while presenting, as presenter remotes send them. `null` for a key that is none of these.
export function keyed(event) {
  if (event.ctrlKey || event.altKey || event.metaKey) return null;
  const onWord = event.target instanceof Element && event.target.closest('button, a, textarea, input');
  if (onWord && (event.key === ' ' || event.key === 'Enter')) return null;
  return {
    ArrowRight: 'on', PageDown: 'on', ' ': 'on', Enter: 'on', ArrowLeft: 'back', PageUp: 'back', Backspace: 'back',
    Home: 'first', End: 'last', '.': 'blank', b: 'blank', B: 'blank', Escape: 'leave',
  }[event.key] ?? null;
}

// The step after a word of command; the same one at either end.
export function moved(what, at, count) {
  const to = { on: at + 1, back: at - 1, first: 0, last: count - 1 }[what];
  return Math.max(0, Math.min(count - 1, to));
}

export function titled(idea) { return idea[0].toUpperCase() + idea.slice(1); }
