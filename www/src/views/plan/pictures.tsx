/** Restoration now, as predicted, and the target: straightened pictures, or colours where there is no photo. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { cssOf } from '../../charts/srgb';
import { THIRDS, type Lab, type Plan, type Preview, type Region, type Zone } from '../../engine/types';
import { scene } from '../../state/desk';
import { regionById } from '../../state/shapes';
import { pictures } from '../../state/sheet';
import { compared } from '../../state/stains/comparison';
import { divider, predicted, planRegion } from '../../state/stains/plan_pictures';
import { words } from '../../words';
import { drawZones, Picture } from '../sheet/picture';
import { dragDivider } from './divider';
import { labText } from './said';

function Layer({ picture, region, clip }: { picture: Preview; region: Region; clip?: string }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (context) drawZones(context, picture, region);
  }, [picture, region]);
  return <canvas ref={canvas} width={picture.width} height={picture.height} style={clip ? { clipPath: clip } : {}} />;
}

/** After on the left of the line, before on its right: the line goes the way of the slider under it. */
function Predicted({ region }: { region: Region }) {
  const [before, after] = [pictures.value.get(region.id), predicted.value];
  const at = divider.value;
  return (
    <div class="picture predicted" role="img" aria-label={words.plan.predicted(words.names.region(scene.value, region.id))} onPointerDown={dragDivider}>
      {before && <Layer picture={before} region={region} />}
      {after && <Layer picture={after} region={region} clip={`inset(0 ${100 - at}% 0 0)`} />}
      {after && at > 0 && at < 100 && <span class="divider-line" style={{ left: `${at}%` }} />}
    </div>
  );
}

const PARTS = { now: 'from', predicted: 'predicted', target: 'to' } as const;

function Colours({ plan, part }: { plan: Plan; part: keyof typeof PARTS }) {
  const of = (zone: Zone): Lab | undefined => {
    const found = plan.zones.find((z) => z.zone === zone);
    return found && (part === 'predicted' ? found.predicted.lab : found[part === 'now' ? 'from' : 'to']);
  };
  return (
    <div class="picture colours">
      {THIRDS.map((zone) => {
        const lab = of(zone);
        return lab ? <span key={zone} role="img" aria-label={words.plan.chips(words.names.zone[zone], words.plan.heads[part], labText(lab))} style={{ background: cssOf(lab) }} /> : <span key={zone} />;
      })}
    </div>
  );
}

export function PlanPictures({ plan }: { plan: Plan }) {
  const region = regionById(scene.value, planRegion.value);
  const target = regionById(scene.value, planRegion.value && compared.value?.target);
  if (region && target) {
    return (
      <>
        <Picture region={region} />
        <Predicted region={region} />
        <Picture region={target} />
      </>
    );
  }
  return (
    <>
      {(Object.keys(PARTS) as (keyof typeof PARTS)[]).map((part) => (
        <Colours key={part} plan={plan} part={part} />
      ))}
    </>
  );
}
