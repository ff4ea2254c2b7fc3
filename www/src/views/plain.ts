/**
 * Names and notes come from files of strangers. Some signs in them turn around what stands beside them
 * (so that 70.1 reads 1.07), or cannot be seen at all (so that two names look like one). Data keep them;
 * what is shown, printed or written for others does not. Joiners stay: scripts and pictures need them.
 */
import { options, type VNode } from 'preact';

const HIDDEN = /[\0-\x08\v\f\x0e-\x1f\x7f-\x9f\u200b\u202a-\u202e\u2060-\u206f\ufeff]/g;

export const plain = (text: string): string => text.replace(HIDDEN, '');

const cleaned = (child: unknown): unknown => (typeof child === 'string' ? plain(child) : Array.isArray(child) ? child.map(cleaned) : child);

/** The words of an element: all but what stands in fields, which is the user's own. */
export function plainWords({ type, props }: VNode): void {
  const said = props as Record<string, unknown>;
  if (typeof type === 'string') for (const name in said) if (/^(child|aria-|title|alt|label)/.test(name)) said[name] = cleaned(said[name]);
}

/** From here on, for everything that is drawn. */
export function showPlain(): void {
  const before = options.vnode;
  options.vnode = (vnode) => (plainWords(vnode), before?.(vnode));
}
