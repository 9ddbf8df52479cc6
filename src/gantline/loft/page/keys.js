// Keys that hold anywhere on the page of a rig, and the words of the running head.
import { find } from './dom.js';

export function keys({ light, sheet, editing, keeper, say, plate }) {
  find('undo').addEventListener('click', () => editing.undo());
  find('redo').addEventListener('click', () => editing.redo());
  document.addEventListener('keydown', (event) => {
    if (find('rig-page').hidden || event.defaultPrevented) return;
    const control = event.ctrlKey || event.metaKey, field = event.target.matches('input:not([type=range]), textarea');
    if (control && event.key.toLowerCase() === 's') { keeper.keep(); keeper.words.keep(); say('Kept.'); }
    else if (control && event.key === 'Enter') editing.sayAnswer();
    else if (control && !field && event.key.toLowerCase() === 'z') (event.shiftKey ? editing.redo : editing.undo)();
    else if (control && !field && event.key.toLowerCase() === 'y') editing.redo();
    else if (event.key === 'Escape') { if (!(plate.escape?.() || light.letGo() || sheet.close())) return; }
    else return;
    event.preventDefault();
  });
}
