/** Names and notes that mean harm, put wherever a name or note is kept, and what must not come of it. */
import type { BrowserContext, Page } from 'playwright-core';
import { changed } from './case_parts';

/** Markup, entities, templates, signs that turn around and that hide, a formula, half a letter. */
export const HOSTILE = '=<img src=x onerror="window.ran=1"><script>window.ran=1</script>&lt;b&gt;${window.ran=1}{{1}}\u202eturned\u2066\u200b\u0007;=1\'"';
/** As much of it as is shown. */
export const SHOWN = '<img src=x onerror="window.ran=1"><script>window.ran=1</script>&lt;b&gt;${window.ran=1}{{1}}turned';
export const HIDDEN = /[\u0000-\u0008\u202a-\u202e\u2066-\u2069\u200b]/;

/** A case file with such a name in every place that a sender can write to. */
export const hostileCase = (file: Buffer): Buffer =>
  changed(file, (found) => {
    found.label = HOSTILE;
    const [photo] = found.photos;
    photo.name = `../../con/${HOSTILE}.jpg`;
    photo.notes = [{ id: HOSTILE.slice(0, 90), at: [400, 400], text: `${HOSTILE} ${'long '.repeat(150)}` }];
    for (const region of photo.scene.regions) if (region.kind !== 'tab') region.name = `${region.name} ${HOSTILE}`.slice(0, 190);
    found.page = { ...found.page, [HOSTILE]: HOSTILE };
  });

/** Before the page runs: what a policy stopped, and what would have run or opened. */
export async function watch(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const seen: string[] = ((window as unknown as { seen: string[] }).seen = []);
    document.addEventListener('securitypolicyviolation', ({ effectiveDirective, blockedURI }) => seen.push(`policy ${effectiveDirective} ${blockedURI}`));
    const open = window.open.bind(window);
    window.open = (...args) => (seen.push('open'), open(...args));
  });
}

/** Everything that must stay empty. */
export const harm = (page: Page): Promise<unknown[]> =>
  page.evaluate((hidden) => {
    const { seen, ran } = window as unknown as { seen: string[]; ran?: number };
    const strange = [...document.querySelectorAll('[onerror], body script, iframe, object, embed, img[src="x"], svg script, foreignObject, a[href]:not([download], [href^="#"])')].map((e) => e.outerHTML.slice(0, 120));
    const words = [...document.querySelectorAll<HTMLElement>('body *')].flatMap((e) => [...e.getAttributeNames().filter((n) => /^(aria-|title$|alt$)/.test(n)).map((n) => e.getAttribute(n)!), ...[...e.childNodes].filter((n) => n.nodeType === 3).map((n) => n.textContent!)]);
    const inFields = (text: string) => [...document.querySelectorAll('textarea')].some((field) => field.defaultValue === text);
    return [...seen, ...(ran === undefined ? [] : ['it ran']), ...strange, ...words.filter((text) => new RegExp(hidden).test(text) && !inFields(text)).map((text) => `hidden: ${JSON.stringify(text.slice(0, 80))}`)];
  }, HIDDEN.source);

/** What a name of a file for downloading must be. */
export const soundName = (name: string): boolean => !/[\\/:*?"<>|]|^[.~\s]|[.\s]$/.test(name) && !HIDDEN.test(name) && name.length < 140 && !/^(con|prn|aux|nul|com\d|lpt\d)\b/i.test(name);
