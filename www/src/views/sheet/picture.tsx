/** A straightened picture: its middle strip, the whole height of the axis. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { StrokeSample } from '../../charts/axis_curve';
import { fixed } from '../../charts/format';
import type { Role } from '../../charts/series';
import { THIRDS, type Preview, type Region } from '../../engine/types';
import { bordersOf, hasOwnThirds } from '../../state/borders';
import { scene } from '../../state/desk';
import { imageData } from '../../state/previews';
import { reading } from '../../state/reading';
import { pictures } from '../../state/sheet';
import { retakeOf } from '../../state/sheet_model';
import { words } from '../../words';

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

export function Picture({ region }: { region: Region }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const picture = pictures.value.get(region.id);
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (picture && context) drawZones(context, picture, region);
  }, [picture, region]);
  const label = words.sheet.pictureOf(words.names.region(scene.value, region.id));
  return (
    <div class="picture" role="img" aria-label={label}>
      {picture && <canvas ref={canvas} width={picture.width} height={picture.height} />}
    </div>
  );
}

export function PictureHead({ region, role, curved }: { region: Region; role: Role; curved: boolean }) {
  return (
    <div class="picture-head">
      <small>{words.names.kindHead[region.kind]}</small>
      <strong>{words.names.own(scene.value, region.id)}</strong>
      {curved && <StrokeSample role={role} />}
    </div>
  );
}

/** The whole region in numbers. */
export function PictureFoot({ region }: { region: Region }) {
  const report = reading.value?.report;
  const whole = report?.readings.find((r) => r.region === region.id)?.zones.whole;
  const distrust = retakeOf(report?.checks ?? [], region.id);
  const t = words.sheet;
  if (!whole || distrust) return <div class="picture-foot none">{t.noNumber}</div>;
  return (
    <div class="picture-foot">
      <span>
        {t.valueUnit} <span class="big">{fixed(whole.lab[0])}</span>
      </span>
      <span>{t.chromaShort(fixed(whole.chroma))}</span>
      <span>{t.hueShort(fixed(whole.hue_deg, 0))}</span>
      <span>{t.doubtShort(fixed(whole.doubt))}</span>
      {whole.blotch !== undefined && <span class="surface">{words.evenness.said(whole.blotch)}</span>}
    </div>
  );
}
