/** What the pair adds over the plain photo: the cross-polarised one laid over it, or the glare. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Preview } from '../engine/types';
import { doc, photo } from '../state/desk';
import { cssMatrix } from '../state/lay';
import { glareMap, layInUse, paired } from '../state/pair';
import { imageData, previews } from '../state/previews';
import { adjusting, pairView, view } from '../state/ui';

function Layer({ picture, matrix, kind }: { picture: Preview; matrix: string; kind: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    canvas.current?.getContext('2d')?.putImageData(imageData(picture), 0, 0);
  }, [picture]);
  return <canvas ref={canvas} class={`over ${kind}`} width={picture.width} height={picture.height} style={{ transform: matrix }} aria-hidden="true" />;
}

export function PairCanvas() {
  const plain = photo.value;
  const { polarised } = doc.value;
  if (!plain || !polarised || !paired.value) return null;
  if (pairView.value === 'polarised') {
    const picture = previews.of(polarised);
    if (!picture) return null;
    const matrix = cssMatrix(layInUse.value, view.value, polarised.info.width / picture.width);
    return <Layer picture={picture} matrix={matrix} kind={adjusting.value ? 'polarised half' : 'polarised'} />;
  }
  const map = glareMap.value;
  if (pairView.value !== 'glare' || !map) return null;
  const { k, x, y } = view.value;
  return <Layer picture={map} matrix={`translate(${x}px, ${y}px) scale(${(k * plain.info.width) / map.width})`} kind="glare" />;
}
