/** A straightened picture: its middle strip, the whole height of the axis. */
import type { ComponentChildren } from 'preact';
import { useCallback } from 'preact/hooks';
import { StrokeSample } from '../../charts/axis_curve';
import { fixed } from '../../charts/format';
import type { Role } from '../../charts/series';
import { THIRDS, type Preview, type Region, type ZoneReading } from '../../engine/types';
import { bordersOf, hasOwnThirds } from '../../state/borders';
import { scene } from '../../state/desk';
import { imageData } from '../../state/previews';
import { reading } from '../../state/reading';
import { pictures } from '../../state/sheet';
import { retakeOf } from '../../state/sheet_model';
import { words } from '../../words';
import { Pixels } from '../pixels';

/** Each zone as high as the others, as they are in every column beside it. */
export function drawZones(context: CanvasRenderingContext2D, picture: Preview, region: Region): void {
  const { width, height } = picture;
  context.putImageData(imageData(picture), 0, 0);
  if (!hasOwnThirds(region)) return;
  const whole = document.createElement('canvas');
  [whole.width, whole.height] = [width, height];
  whole.getContext('2d')?.putImageData(imageData(picture), 0, 0);
  context.clearRect(0, 0, width, height);
  const ends = [0, ...bordersOf(region), 1];
  THIRDS.forEach((_, i) => {
    const [from, to] = [ends[i]! * height, ends[i + 1]! * height];
    context.drawImage(whole, 0, from, width, to - from, 0, (i * height) / 3, width, height / 3);
  });
}

/** A region turned upright; its place while the picture is made. */
export function Upright({ picture, region, label }: { picture: Preview | undefined; region: Region; label: string }) {
  const draw = useCallback((context: CanvasRenderingContext2D) => picture && drawZones(context, picture, region), [picture, region]);
  return (
    <div class="picture" role="img" aria-label={label}>
      {picture && <Pixels picture={picture} draw={draw} />}
    </div>
  );
}

export const Picture = ({ region }: { region: Region }) => (
  <Upright picture={pictures.value.get(region.id)} region={region} label={words.sheet.pictureOf(words.names.region(scene.value, region.id))} />
);

/** The names of the thirds, beside the pictures. */
export const ThirdsGutter = () => (
  <div class="gutter" aria-label={words.sheet.thirds} role="group">
    {THIRDS.map((zone) => (
      <span key={zone}>{words.names.zoneShort[zone]}</span>
    ))}
  </div>
);

export const WholeGutter = () => (
  <span class="gutter">
    <span>{words.names.zoneShort.whole}</span>
  </span>
);

export function PictureHead({ region, role, curved }: { region: Region; role: Role; curved: boolean }) {
  return (
    <div class="picture-head">
      <small>{words.names.kindHead[region.kind]}</small>
      <strong>{words.names.own(scene.value, region.id)}</strong>
      {curved && <StrokeSample role={role} />}
    </div>
  );
}

/** A whole region in numbers, and what else is to be said of it. */
export function WholeNumbers({ whole, children }: { whole: ZoneReading | undefined; children?: ComponentChildren }) {
  const t = words.sheet;
  if (!whole) return <div class="picture-foot none">{t.noNumber}</div>;
  return (
    <div class="picture-foot">
      <span>
        {t.valueUnit} <span class="big">{fixed(whole.lab[0])}</span>
      </span>
      <span>{t.chromaShort(fixed(whole.chroma))}</span>
      <span>{t.hueShort(fixed(whole.hue_deg, 0))}</span>
      <span>{t.doubtShort(fixed(whole.doubt))}</span>
      {children}
    </div>
  );
}

export function PictureFoot({ region }: { region: Region }) {
  const report = reading.value?.report;
  const distrust = retakeOf(report?.checks ?? [], region.id);
  const whole = distrust ? undefined : report?.readings.find((r) => r.region === region.id)?.zones.whole;
  return <WholeNumbers whole={whole}>{whole?.blotch !== undefined && <span class="surface">{words.evenness.said(whole.blotch)}</span>}</WholeNumbers>;
}
