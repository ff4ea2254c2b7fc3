// What may not happen while somebody wanders about: written down as it does.

/** In the page before its own scripts: keeps its workers, what its policy forbade, and whether cases were removed by hand. */
export function spy() {
  // The page drags by pointers. Selected text dragged as text leaves a driven pointer without a say.
  addEventListener('dragstart', (event) => event.preventDefault(), true);
  const Native = Worker;
  const spied = { workers: new Set(), violations: [], printed: 0, removals: 0 };
  window.Worker = class extends Native {
    #since = new Map();
    #probes = new Map();

    constructor(...given) {
      super(...given);
      this.script = String(given[0]).split('/').at(-1);
      spied.workers.add(this);
      this.addEventListener('message', ({ data }) => {
        if (data?.kind === 'phase') return;
        this.#since.delete(data?.id);
        this.#probes.get(data?.id)?.(data.value ?? null);
        this.#probes.delete(data?.id);
      });
    }

    postMessage(message, ...rest) {
      this.#since.set(message?.id, performance.now());
      super.postMessage(message, ...rest);
    }

    terminate() {
      spied.workers.delete(this);
      super.terminate();
    }

    /** How long the oldest question has waited for its answer (ms). */
    get waited() {
      return Math.max(0, ...[...this.#since.values()].map((at) => performance.now() - at));
    }

    /** Bytes of its program's memory; `null` when it is none of those who say. Its answer proves that it lives. */
    probe() {
      const id = -1 - Math.floor(performance.now() * 1000);
      return new Promise((done) => {
        this.#probes.set(id, done);
        super.postMessage({ id, call: 'memory', args: [] });
      });
    }
  };
  // What is pressed in the end, by mouse or key, is what lies there by then.
  const REMOVES = '.case-row .tray-acts > button:last-child, .case-row.deleted .chips > button:last-child';
  document.addEventListener('click', ({ target }) => target instanceof Element && target.closest(REMOVES) && spied.removals++, true);
  document.addEventListener('securitypolicyviolation', (event) => spied.violations.push(`${event.violatedDirective} ${event.blockedURI}`));
  window.print = () => spied.printed++;
  /** Files as a drop or a choice brings them; their bytes came as base64. */
  spied.carrying = (given) => {
    const data = new DataTransfer();
    for (const { name, mimeType, bytes } of given) data.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name, { type: mimeType }));
    return data;
  };
  window.spied = spied;
}

/** What the browser itself says of a download that the page offered and that nobody wanted is none of the page's. */
const NOISE = /Download the .* DevTools/;

/** Everything that went wrong, with the step at which it did. */
export class Problems {
  #all = [];
  step = 0;

  /** `told` is given each as it happens. */
  constructor(told) {
    this.told = told;
  }

  add(kind, text) {
    const said = String(text).replace(/\x1b\[\d+m/g, '').slice(0, 600);
    if (NOISE.test(said)) return;
    this.#all.push({ step: this.step, kind, text: said });
    this.told(`step ${this.step}: ${kind}: ${said}`);
  }

  get all() {
    return this.#all;
  }

  watch(page) {
    page.on('pageerror', (error) => this.add('page error', error.stack ?? error.message ?? error));
    page.on('console', (message) => message.type() === 'error' && this.add('console error', `${message.text()} ${message.location().url}`));
    page.on('crash', () => this.add('crash', 'the page crashed'));
    page.on('dialog', (dialog) => {
      this.add('browser dialog', dialog.message());
      void dialog.dismiss().catch(() => {});
    });
    page.on('popup', (other) => {
      this.add('window', other.url());
      void other.close().catch(() => {});
    });
  }
}

const ANSWER_MS = 10_000;
const late = (ms, what) => new Promise((_, fail) => setTimeout(() => fail(new Error(what)), ms).unref());

/** The page and each of its workers answer within ten seconds. Gives the longest wait (ms). */
export async function alive(page, problems) {
  const asked = performance.now();
  try {
    const found = await Promise.race([
      page.evaluate(async (most) => {
        const all = [...spied.workers];
        // One that was ended meanwhile owes no answer.
        const gone = (worker) => new Promise((done) => { const look = setInterval(() => spied.workers.has(worker) || (clearInterval(look), done()), 100); setTimeout(() => (clearInterval(look), done('late')), most); });
        const silent = await Promise.all(all.map(async (worker) => ((await Promise.race([worker.probe(), gone(worker)])) === 'late' ? worker.script : null)));
        const waited = Math.max(0, ...[...spied.workers].map((worker) => worker.waited));
        return { silent: silent.filter(Boolean), waited, violations: spied.violations.splice(0) };
      }, ANSWER_MS),
      late(2 * ANSWER_MS, 'the page did not answer'),
    ]);
    found.silent.forEach((script) => problems.add('worker', `${script} did not answer within ${ANSWER_MS / 1000} s`));
    if (found.waited > ANSWER_MS) problems.add('worker', `a question has waited ${Math.round(found.waited)} ms`);
    found.violations.forEach((text) => problems.add('policy', text));
  } catch (error) {
    problems.add('page', error.message);
  }
  return performance.now() - asked;
}
