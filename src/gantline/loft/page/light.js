// Lighting: pointing at a part, a line, a term or a sentence lights the same thing everywhere, by part ids.

export class Light extends EventTarget {
  constructor() {
    super();
    this.kept = null;
    this.ids = [];
    this.words = '';
  }

  // `ids` lit while they are pointed at or focused; null ends it, and what was kept shines again.
  show(ids, words = '') {
    const [now, said] = ids && ids.length ? [ids, words] : [this.kept?.ids || [], this.kept?.words || ''];
    if (now.join() === this.ids.join() && said === this.words) return;
    this.ids = now;
    this.words = said;
    this.dispatchEvent(new Event('lit'));
  }

  // Kept lit by a click or Space, until let go.
  keep(ids, words = '') {
    const same = this.kept && this.kept.ids.join() === ids.join();
    this.kept = same ? null : { ids, words };
    this.show(same ? null : ids, words);
    this.dispatchEvent(new Event('kept'));
  }

  letGo() {
    if (!this.kept) return false;
    this.kept = null;
    this.ids = ['\u0000'];
    this.show(null);
    this.dispatchEvent(new Event('kept'));
    return true;
  }

  // What an element speaks of lights while it is pointed at or holds the focus, and stays lit after a click on `click`.
  speaks(element, ids, words = '', click = false) {
    if (ids.length) element.dataset.parts = ids.join(' ');
    const on = () => this.show(ids, words), off = () => this.show(null);
    for (const event of ['pointerenter', 'focusin']) element.addEventListener(event, on);
    for (const event of ['pointerleave', 'focusout']) element.addEventListener(event, off);
    if (click) element.addEventListener('click', () => this.keep(ids, words));
    return element;
  }
}

// A strand belongs to its rope, a sheave to its block: whoever lights the whole lights its members too.
export function touches(ids, part) {
  return ids.includes(part) || ids.some((id) => part.startsWith(`${id}:`) || part.startsWith(`${id}.`));
}
