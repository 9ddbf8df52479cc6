// How the slip marks words and what may be written next. The list of words comes from the server's own notation.

const NAME = /^[A-Za-z_][\w-]*/;

// A tokenizer for CodeMirror's StreamLanguage. A line that ends with a comma goes on with the next.
export function language(words) {
  const statements = new Set(words.statements), inner = new Set([...words.attributes, ...words.path]);
  return {
    name: 'rig',
    startState: () => ({ keyword: '', goes: false, comma: false, place: 0 }),
    copyState: (state) => ({ ...state }),
    token(stream, state) {
      if (stream.sol()) Object.assign(state, state.comma ? { comma: false } : { keyword: '', place: 0, comma: false });
      if (stream.eatSpace()) return null;
      if (stream.peek() === '#' && (state.keyword !== 'title' || /\s/.test(stream.string[stream.pos - 1] || ' '))) {
        stream.skipToEnd();
        return 'comment';
      }
      if (state.keyword === 'title') { stream.next(); return null; }
      state.comma = false;
      if (!state.keyword) return first(stream, state, statements);
      return next(stream, state, inner);
    },
  };
}

function first(stream, state, statements) {
  if (!stream.match(/^\S+/)) { stream.next(); return null; }
  state.keyword = stream.current();
  return statements.has(state.keyword) ? 'keyword' : null;
}

function next(stream, state, inner) {
  if (stream.eat(',')) { state.comma = true; return 'punctuation'; }
  if (stream.eat(/[:=]/)) return 'punctuation';
  if (stream.match(/^[\d.]+/)) return 'number';
  if (!stream.match(NAME)) { stream.next(); return null; }
  state.place += 1;
  const found = stream.current();
  const named = ['fixed', 'moving', 'load', 'rope', 'raise', 'lower'].includes(state.keyword);
  if (named && state.place === 1) return 'variableName';
  if (inner.has(found)) { state.last = found; return null; }
  if (state.keyword !== 'rope' && !['carries', 'and'].includes(state.last)) return null;
  stream.match(/^\.\d+/);
  return 'variableName';
}

// What may be written at a place: statements at the start of a line, contacts in a rope, attributes in a part.
export function following(before, text, words) {
  const line = lineSoFar(before);
  const parts = [...text.matchAll(/^[ \t]*(fixed|moving|load)[ \t]+([A-Za-z_][\w-]*)/gm)].map((found) => ({ kind: found[1], name: found[2] }));
  const keyword = line.trimStart().split(/\s/, 1)[0];
  const begun = /^\s*\S*$/.test(line);
  if (begun) return words.statements.map((label) => option(label, words));
  if (keyword === 'rope') return ropeWords(line, parts, words);
  if (['raise', 'lower'].includes(keyword) && /^\s*\S+\s+\S*$/.test(line)) return parts.map(named);
  if (/\b(carries|and)\s+[\w-]*$/.test(line)) return parts.filter((part) => part.kind === 'load').map(named);
  if (/[\d.]\s*[A-Za-z%]*$/.test(line)) return unitWords(line, keyword, words);
  if (['fixed', 'moving', 'load'].includes(keyword) && /^\s*\S+\s+\S+\s/.test(line)) {
    return words.attributes.filter((label) => !(keyword === 'load' && !['weight', 'mass'].includes(label))).map((label) => option(label, words));
  }
  return [];
}

// The statement so far: the lines before it that end with a comma belong to it.
function lineSoFar(before) {
  const lines = before.split('\n');
  let from = lines.length - 1;
  while (from > 0 && /,\s*(#.*)?$/.test(lines[from - 1])) from -= 1;
  return lines.slice(from).join(' ');
}

function ropeWords(line, parts, words) {
  const places = parts.filter((part) => part.kind !== 'load').map(named);
  if (/\b(over|under)\s+[\w.-]*$/.test(line)) return places;
  if (!line.includes(':')) return [];
  return [...words.path.map((label) => option(label, words)), ...parts.map(named)];
}

function unitWords(line, keyword, words) {
  const key = [...line.matchAll(/[a-z]+/g)].map((found) => found[0]).filter((each) => words.units[each]).pop() || keyword;
  return (words.units[key] || []).map((label) => ({ label, detail: '' }));
}

function named(part) { return { label: part.name, detail: part.kind }; }

function option(label, words) { return { label, detail: words.says[label] || '' }; }
