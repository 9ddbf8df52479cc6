// Talking with the loft's server. Each request carries all it needs; the newest question is the one that counts.

const LASTING = 20000; // characters: browsers refuse to keep more than 64 KiB going

export class Gone extends Error {}
export class Turned extends Error {
  constructor(status, answer) {
    super(answer.says || `The loft answered ${status}.`);
    Object.assign(this, { status, answer });
  }
}

export async function ask(path, body, { method = body === undefined ? 'GET' : 'POST', signal } = {}) {
  const headers = body === undefined ? {} : { 'Content-Type': 'application/json', 'X-Gantline': '1' };
  const sent = body === undefined ? undefined : JSON.stringify(body);
  const keepalive = method === 'PUT' && sent.length < LASTING; // goes on where the page is closed
  let response;
  try {
    response = await fetch(`/api/${path}`, { method, headers, signal, body: sent, cache: 'no-store', keepalive });
  } catch (error) {
    if (error.name === 'AbortError') throw error;
    throw new Gone('The loft has stopped answering.');
  }
  const answer = await response.json().catch(() => ({}));
  if (response.ok || response.status === 422) return answer;
  throw new Turned(response.status, answer);
}

// Asks one question at a time and only ever the newest that waits: a dragged pin never builds a queue.
export class Newest {
  constructor(path, heard, failed) {
    Object.assign(this, { path, heard, failed, waiting: null, busy: false, halt: null });
  }

  // `why` goes with the question and comes with its answer; of questions passed over it is joined to the next one's.
  ask(body, why = {}) {
    this.waiting = { body, why: { ...this.waiting?.why, ...why } };
    if (!this.busy) this.#run();
  }

  // Gives up the question that is being answered.
  stop() {
    this.waiting = null;
    this.halt?.abort();
  }

  async #run() {
    this.busy = true;
    while (this.waiting) {
      const { body, why } = this.waiting;
      this.waiting = null;
      try {
        this.halt = new AbortController();
        const answer = await ask(this.path, body, { signal: this.halt.signal });
        if (!this.waiting || this.path === 'see') this.heard(answer, body, why);
      } catch (error) {
        this.failed(error, body);
        break;
      }
    }
    this.busy = false;
  }
}
