/** The two straightened pictures side by side, each with its photo, its role and its own numbers. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { StrokeSample } from '../../charts/axis_curve';
import { fixed } from '../../charts/format';
import { THIRDS } from '../../engine/types';
import { pictureOf } from '../../state/compare/compare';
import { SIDES, type Side, type Sided } from '../../state/compare/compare_model';
import { words } from '../../words';
import { drawZones } from '../sheet/picture';

export type Both = Record<Side, Sided>;

export const nameOf = ({ of, region }: Sided): string => words.names.region(of.made.scene, region.id);
export const photoOf = ({ of }: Sided): string => words.photo.shown(of.photo.name);

function Picture({ side }: { side: Sided }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const picture = pictureOf(side);
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (picture && context) drawZones(context, picture, side.region);
  }, [picture, side.region]);
  return (
    <div class="picture" role="img" aria-label={words.compare.pictureOf(nameOf(side), photoOf(side))}>
      {picture && <canvas ref={canvas} width={picture.width} height={picture.height} />}
    </div>
  );
}

function Foot({ side: { reading } }: { side: Sided }) {
  const t = words.sheet;
  const whole = reading?.zones.whole;
  if (!whole) return <div class="picture-foot none">{t.noNumber}</div>;
  return (
    <div class="picture-foot">
      <span>
        {t.valueUnit} <span class="big">{fixed(whole.lab[0])}</span>
      </span>
      <span>{t.chromaShort(fixed(whole.chroma))}</span>
      <span>{t.hueShort(fixed(whole.hue_deg, 0))}</span>
      <span>{t.doubtShort(fixed(whole.doubt))}</span>
    </div>
  );
}

export function Teeth({ both }: { both: Both }) {
  return (
    <>
      <div class="teeth-head teeth-row">
        <span class="gutter" />
        {SIDES.map((role) => (
          <div key={role} class="picture-head">
            <small>{words.compare.role[role]}</small>
            <strong>
              {words.names.kindHead[both[role].region.kind]} {words.names.own(both[role].of.made.scene, both[role].region.id)}
            </strong>
            <small class="of-photo" title={photoOf(both[role])}>{photoOf(both[role])}</small>
            <StrokeSample role={role} />
          </div>
        ))}
      </div>
      <div class="teeth teeth-row">
        <div class="gutter" aria-label={words.sheet.thirds} role="group">
          {THIRDS.map((zone) => (
            <span key={zone}>{words.names.zoneShort[zone]}</span>
          ))}
        </div>
        {SIDES.map((role) => (
          <Picture key={role} side={both[role]} />
        ))}
      </div>
      <div class="teeth-foot teeth-row">
        <span class="gutter">
          <span>{words.names.zoneShort.whole}</span>
        </span>
        {SIDES.map((role) => (
          <Foot key={role} side={both[role]} />
        ))}
      </div>
    </>
  );
}
