/** Walks what a chart component returns, without a DOM. */
import type { ComponentChildren, VNode } from 'preact';

type Props = Record<string, unknown> & { children?: ComponentChildren };

export interface Element {
  type: string;
  props: Props;
  text: string;
}

/** Every element, depth first, with function components called. */
export function elementsOf(node: ComponentChildren): Element[] {
  if (Array.isArray(node)) return node.flatMap(elementsOf);
  if (typeof node !== 'object' || node === null) return [];
  const { type, props } = node as VNode<Props>;
  if (typeof type === 'function') return elementsOf((type as (props: Props) => ComponentChildren)(props));
  const own = typeof type === 'string' ? [{ type, props, text: textOf(props.children) }] : [];
  return [...own, ...elementsOf(props.children)];
}

export function textOf(node: ComponentChildren): string {
  if (Array.isArray(node)) return node.map(textOf).join('');
  if (typeof node === 'object' && node !== null) return textOf((node as VNode<Props>).props.children);
  return node === null || node === undefined || typeof node === 'boolean' ? '' : String(node);
}
