// The motion: one long rule for the hand's way, with Haul and Ease. It stops where blocks meet.
import { find } from './dom.js';

export function Motion() {
  const below = find('below');
  return { show(motion) { below.replaceChildren(); if (!motion) return; } };
}
