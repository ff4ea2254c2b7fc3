/** Whose is what a snapshot of memory holds. */
import { expect, it } from 'vitest';
import { heldOf } from '../scripts/wander/held.mjs';

const strings = ['', '(GC roots)', 'window', 'list', 'system / JSArrayBufferData', 'run', '7 / DevTools console', '<h3>', 'blink::DragController', '<td>', 'blink::NetworkResourcesData', 'gone'];
const [name, NODE, EDGE] = [(text: string) => strings.indexOf(text), ['type', 'name', 'self_size', 'edge_count'], ['type', 'name_or_index', 'to_node']];

/** Nodes with their bytes, and for each the edges: kind, name, to which node. */
function snapshot(nodes: [type: string, name: string, bytes: number, edges: [type: string, name: string, to: number][]][]): string {
  const [types, edgeTypes] = [['object', 'code', 'native'], ['property', 'internal', 'weak', 'element']];
  return JSON.stringify({
    snapshot: { meta: { node_fields: NODE, node_types: [types], edge_fields: EDGE, edge_types: [edgeTypes] } },
    nodes: nodes.flatMap(([type, called, bytes, edges]) => [types.indexOf(type), name(called), bytes, edges.length]),
    edges: nodes.flatMap(([, , , edges]) => edges.flatMap(([type, called, to]) => [edgeTypes.indexOf(type), type === 'element' ? 1 : name(called), to * NODE.length])),
    strings,
  });
}

it('tells the page’s own from code, pictures, and what the driver or the last drag keeps', () => {
  const held = heldOf(
    snapshot([
      ['object', '(GC roots)', 1, [['element', '', 1], ['internal', '7 / DevTools console', 5], ['element', '', 6], ['weak', '', 9]]],
      ['object', 'window', 10, [['property', 'list', 2], ['element', '', 3], ['element', '', 4], ['element', '', 8]]],
      ['object', 'list', 100, []],
      ['native', 'system / JSArrayBufferData', 1_000, []],
      ['code', 'run', 10_000, []],
      // What the driver holds by a handle, and what was dragged last; the page may hold the same.
      ['native', '<h3>', 100_000, [['element', '', 2]]],
      ['native', 'blink::DragController', 1, [['element', '', 7]]],
      ['native', '<td>', 1_000_000, [['element', '', 2]]],
      ['native', 'blink::NetworkResourcesData', 10_000_000, []],
      ['object', 'gone', 100_000_000, []],
    ]),
  );
  expect(held).toEqual({ own: 112, code: 10_000, pictures: 1_000, driver: 111_100_000 });
});
