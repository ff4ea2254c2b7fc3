/**
 * A part that is one tap away and closes again. Closed, it keeps its width, so that its charts are
 * drawn and it can be printed; nobody sees or reaches it, and it follows only when all is at rest.
 */
import type { ComponentChildren } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { isOpen, setDepth, type DepthName } from '../state/depths';

export interface DepthProps {
  name: DepthName;
  title: string;
  /** The gist of it, in a few words. */
  gist?: string | undefined;
  children: ComponentChildren;
}

const REST_MS = 400;

/** The newest children where they are seen; those of the last rest where they are not. */
function useRested(children: ComponentChildren, shown: boolean): ComponentChildren {
  const kept = useRef(children);
  const [, rest] = useState(0);
  if (shown) kept.current = children;
  useEffect(() => {
    if (kept.current === children) return;
    const timer = setTimeout(() => {
      kept.current = children;
      rest((n) => n + 1);
    }, REST_MS);
    return () => clearTimeout(timer);
  });
  return kept.current;
}

/** What was opened is brought into sight where it would lie below the edge. */
function turn(name: DepthName, open: boolean, head: HTMLElement): void {
  setDepth(name, open);
  if (open) requestAnimationFrame(() => head.closest('.depth')?.scrollIntoView({ block: 'nearest' }));
}

export function Depth({ name, title, gist, children }: DepthProps) {
  const shown = isOpen(name);
  const inside = useRested(children, shown);
  return (
    <section class={`depth ${name}`}>
      <h2>
        <button type="button" aria-expanded={shown} aria-controls={`depth-${name}`} onClick={(e) => turn(name, !shown, e.currentTarget)}>
          <span class="depth-mark" aria-hidden="true" />
          <span class="depth-title">{title}</span>
          {gist && <small>{gist}</small>}
        </button>
      </h2>
      <div id={`depth-${name}`} class={shown ? 'inside' : 'inside shut'}>
        {inside}
      </div>
    </section>
  );
}
