// Light or dark: the system's choice, until a word on the shelf says otherwise.
import { find } from './dom.js';

export function ground(changed) {
  const root = document.documentElement, system = matchMedia('(prefers-color-scheme: dark)'), button = find('ground');
  const kept = localStorage.getItem('gantline ground');
  if (kept) root.dataset.ground = kept;
  const dark = () => (root.dataset.ground || (system.matches ? 'dark' : 'light')) === 'dark';
  const name = () => { button.textContent = dark() ? 'Light' : 'Dark'; };
  button.addEventListener('click', () => {
    root.dataset.ground = dark() ? 'light' : 'dark';
    localStorage.setItem('gantline ground', root.dataset.ground);
    name();
    changed();
  });
  system.addEventListener('change', () => { name(); changed(); });
  name();
  return dark;
}
