// Handing out: asks for a file, tells what is being made while it is, and gives it to the browser to save.
import { Gone } from './server.js';

// `told` hears each sentence. Gives the name of the file.
export async function handOut(request, told) {
  let response;
  try {
    response = await fetch('/api/export', { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Gantline': '1' }, body: JSON.stringify(request) });
  } catch {
    throw new Gone('The loft has stopped answering.');
  }
  let last = {};
  for await (const line of lines(response.body)) {
    last = JSON.parse(line);
    if (last.says) told(`Handing out: ${last.says}.`);
  }
  if (!last.data) throw new Error(last.refused || last.says || 'Nothing was handed out.');
  save(last);
  return last.name;
}

async function* lines(body) {
  const reader = body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = '';
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    rest += value;
    const whole = rest.split('\n');
    rest = whole.pop();
    yield* whole.filter(Boolean);
  }
  if (rest.trim()) yield rest;
}

function save({ name, type, data }) {
  const bytes = Uint8Array.from(atob(data), (each) => each.charCodeAt(0));
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
