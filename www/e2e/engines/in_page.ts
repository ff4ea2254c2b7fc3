/** What is looked at inside the page. These functions travel as text: they may use nothing from outside themselves. */

export type Sought = { readonly css: string } | { readonly button: string };

/** The first element that is shown and that a finger would reach in its middle; it is scrolled to if need be. */
export function locate(sought: Sought): Element | null {
  const name = (e: Element) => (e.getAttribute('aria-label') ?? e.textContent ?? '').replace(/\s+/g, ' ').trim();
  const shown = (e: Element) => e.getClientRects().length > 0 && e.checkVisibility({ visibilityProperty: true }) && !e.matches(':disabled');
  const css = 'css' in sought ? sought.css : 'button, summary, [role=button], [role=switch], a[href]';
  const all = [...document.querySelectorAll(css)].filter(shown);
  const found = 'css' in sought ? all[0] : (all.find((e) => name(e) === sought.button) ?? all.find((e) => name(e).startsWith(sought.button)));
  if (!found) return null;
  const middle = () => {
    const { left, top, width, height } = found.getBoundingClientRect();
    return [left + width / 2, top + height / 2] as const;
  };
  const [x, y] = middle();
  if (x < 0 || y < 0 || x > innerWidth || y > innerHeight) found.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
  const hit = document.elementFromPoint(...middle());
  return hit && (found.contains(hit) || hit.closest('label')?.contains(found)) ? found : null;
}

/** The words of an element, without those of paper and charts. */
export function textIn(selector: string): string {
  const copy = document.querySelector(selector)!.cloneNode(true) as Element;
  // Paper carries the minute it was printed in; a chart's axis has as many numbers as there is room for.
  for (const part of copy.querySelectorAll('.print-only, svg')) part.remove();
  return copy.textContent!.replace(/\s+/g, ' ').trim();
}

/** The page's talk with its worker is written down from here on: the last answer to each call, picture bytes as a hash. */
export function overhear(): void {
  const heard = ((window as unknown as Heard).tabsideHeard = {} as Record<string, string>);
  const asked = new Map<number, string>();
  const known = new WeakSet<Worker>();
  const post = Worker.prototype.postMessage as (this: Worker, ...args: unknown[]) => void;
  const hash = (bytes: Uint8Array) => {
    let fnv = 0x811c9dc5;
    for (const byte of bytes) fnv = Math.imul(fnv ^ byte, 0x01000193);
    return `${bytes.length} bytes, FNV-1a ${(fnv >>> 0).toString(16)}`;
  };
  Worker.prototype.postMessage = function (this: Worker, ...args: unknown[]) {
    const request = args[0] as { id: number; call: string; args: unknown[] };
    // What came before is about the picture that each engine draws by itself to warm its reader.
    if (request.call === 'open') {
      asked.clear();
      for (const call of Object.keys(heard)) delete heard[call];
    }
    // Told apart by what it is about: a region, a size. The first is the photo's number, which is the same in all.
    asked.set(request.id, [request.call, ...request.args.slice(1).filter((a) => typeof a === 'string' || typeof a === 'number')].join(' '));
    if (!known.has(this)) {
      known.add(this);
      this.addEventListener('message', ({ data }: MessageEvent<{ id: number; kind: string; value?: unknown }>) => {
        // A photo's number is higher by one where the reader was warmed before.
        if (data.kind === 'value' && asked.has(data.id)) heard[asked.get(data.id)!] = JSON.stringify(data.value, (_, v: unknown) => (ArrayBuffer.isView(v) ? hash(v as Uint8Array) : v))?.replace(/^\{"id":\d+,/, '{') ?? '';
      });
    }
    return post.apply(this, args);
  } as typeof Worker.prototype.postMessage;
}

interface Heard {
  tabsideHeard: Record<string, string>;
}
export const overheard = (): Record<string, string> => (window as unknown as Heard).tabsideHeard;

/** What sticks out sideways: of the window, or of a part that is not meant to be moved sideways. */
export function wide(): string[] {
  const parts = [document.documentElement, ...document.querySelectorAll('main, .panel, .start, .top-bar')];
  return parts.filter((e) => e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0).map((e) => `${e.tagName} ${e.className}: ${e.scrollWidth} px in ${e.clientWidth} px`);
}

/** What is too low for a finger (WCAG 2.2, 2.5.5: 44 px); words inside a sentence and what is only read out are free. */
export function low(): string[] {
  const all = [...document.querySelectorAll<HTMLElement>('button, summary, select, input:not([type=file]), [role=switch]')];
  const shown = all.filter((e) => e.getClientRects().length > 0 && e.checkVisibility({ visibilityProperty: true, opacityProperty: true }));
  // A box of its own label is as large as the label.
  const box = (e: HTMLElement) => (e.matches('[type=checkbox], [type=radio]') ? (e.closest('label') ?? e) : e).getBoundingClientRect();
  const bad = shown.filter((e) => !e.closest('p, li > .help-term') && box(e).height < 43.5);
  return [...new Set(bad.map((e) => `${e.tagName} ${e.className} "${(e.getAttribute('aria-label') ?? e.textContent ?? '').slice(0, 30)}" ${box(e).height.toFixed(1)} px`))];
}
