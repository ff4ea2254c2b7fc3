/** A straightened picture: its middle strip, the whole height of the axis. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { StrokeSample } from '../../charts/axis_curve';
import { fixed } from '../../charts/format';
import type { Role } from '../../charts/series';
import type { Region } from '../../engine/types';
import { scene } from '../../state/desk';
import { imageData } from '../../state/previews';
import { reading } from '../../state/reading';
import { pictures } from '../../state/sheet';
import { retakeOf } from '../../state/sheet_model';
import { words } from '../../words';

export function Picture({ region }: { region: Region }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const picture = pictures.value.get(region.id);
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (picture && context) context.putImageData(imageData(picture), 0, 0);
  }, [picture]);
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
    </div>
  );
}
