/** What the pair adds over the plain photo: the cross-polarised one laid over it, or the glare. */
import { doc, photo } from '../state/desk';
import { cssMatrix } from '../state/lay';
import { glareMap, layInUse, paired } from '../state/pair';
import { previews } from '../state/previews';
import { adjusting, pairView, view } from '../state/ui';
import { Pixels } from '../views/pixels';

export function PairCanvas() {
  const plain = photo.value;
  const { polarised } = doc.value;
  if (!plain || !polarised || !paired.value) return null;
  if (pairView.value === 'polarised') {
    const picture = previews.of(polarised);
    if (!picture) return null;
    const matrix = cssMatrix(layInUse.value, view.value, polarised.info.width / picture.width);
    return <Pixels picture={picture} class={adjusting.value ? 'over polarised half' : 'over polarised'} style={{ transform: matrix }} />;
  }
  const map = glareMap.value;
  if (pairView.value !== 'glare' || !map) return null;
  const { k, x, y } = view.value;
  return <Pixels picture={map} class="over glare" style={{ transform: `translate(${x}px, ${y}px) scale(${(k * plain.info.width) / map.width})` }} />;
}
