// What a snapshot of memory is made of, by who holds it.

/** Whose handles keep things that the page let go of: the driver's, and the engine's memory of what was dragged last. */
const DRIVER_EDGE = 'DevTools console';
const DRAG = 'blink::DragController';

const kindOf = (type, name) => (type === 'code' ? 'code' : name.includes('JSArrayBufferData') ? 'pictures' : name.includes('NetworkResourcesData') ? 'driver' : 'own');

/**
 * Bytes in a snapshot's JSON (the browser's own form): the page's own objects with the DOM, code that the engine compiled
 * (more, the oftener something is done), pictures (of the last photos that were looked at some are kept), and
 * what only the driver or the last drag still holds, with what the driver has the browser remember of each fetched file.
 */
export function heldOf(text) {
  const { snapshot: { meta }, nodes, edges, strings } = JSON.parse(text);
  const at = (fields, names) => names.map((name) => fields.indexOf(name));
  const [type, name, size, count] = at(meta.node_fields, ['type', 'name', 'self_size', 'edge_count']);
  const [edgeType, edgeName, to] = at(meta.edge_fields, ['type', 'name_or_index', 'to_node']);
  const [nodeStep, edgeStep, nodeTypes, edgeTypes] = [meta.node_fields.length, meta.edge_fields.length, meta.node_types[0], meta.edge_types[0]];
  const total = nodes.length / nodeStep;
  const first = new Uint32Array(total + 1);
  for (let i = 0; i < total; i++) first[i + 1] = first[i] + nodes[i * nodeStep + count];
  // From the roots on; what is met first is looked at last, which makes no difference.
  const [seen, open] = [new Uint8Array(total), [0]];
  seen[0] = 1;
  while (open.length) {
    const i = open.pop();
    if (strings[nodes[i * nodeStep + name]].startsWith(DRAG)) continue;
    for (let e = first[i] * edgeStep; e < first[i + 1] * edgeStep; e += edgeStep) {
      const kind = edgeTypes[edges[e + edgeType]];
      const next = edges[e + to] / nodeStep;
      if (seen[next] || kind === 'weak' || (kind === 'internal' && strings[edges[e + edgeName]].includes(DRIVER_EDGE))) continue;
      seen[next] = 1;
      open.push(next);
    }
  }
  const sums = { own: 0, code: 0, pictures: 0, driver: 0 };
  for (let i = 0; i < total; i++) {
    const node = i * nodeStep;
    const kind = kindOf(nodeTypes[nodes[node + type]], strings[nodes[node + name]]);
    sums[kind === 'own' && !seen[i] ? 'driver' : kind] += nodes[node + size];
  }
  return sums;
}
