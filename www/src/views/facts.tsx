/** About the photo: what the file says, and what stands behind the numbers. */
import { fixed } from '../charts/format';
import { doc, guide as guideInUse, photo } from '../state/desk';
import { reading } from '../state/reading';
import { words } from '../words';
import { engineWords } from '../words/engine';
import { removePolarised } from './actions';

function exposure(f: { exposure_s?: number | undefined; f_number?: number | undefined; iso?: number | undefined }): string | undefined {
  const time = f.exposure_s && (f.exposure_s < 0.5 ? `1/${Math.round(1 / f.exposure_s)} s` : `${fixed(f.exposure_s)} s`);
  const parts = [time, f.f_number && `f/${f.f_number}`, f.iso && `ISO ${f.iso}`].filter(Boolean);
  return parts.length ? parts.join(', ') : undefined;
}

const choice = (value: boolean | undefined, yes: string, no: string) => (value === undefined ? undefined : value ? yes : no);

export function Facts() {
  const open = photo.value;
  if (!open) return null;
  const t = words.numbers;
  const n = t.factNames;
  const { info } = open;
  const f = info.facts;
  const { polarised } = doc.value;
  const guide = guideInUse.value;
  const rows: [string, string | undefined][] = [
    [n.size, `${t.sizeOf(info.width, info.height)}, ${f.format}, ${t.bits(info.space.bits)}`],
    [n.space, `${info.space.name} (${t.space[info.space.source]})`],
    [n.camera, f.camera],
    [n.exposure, exposure(f)],
    [n.balance, choice(f.white_balance_auto, t.balanceAuto, t.balanceFixed)],
    [n.flash, choice(f.flash_fired, t.flashFired, t.flashOff)],
    [n.zoom, f.digital_zoom ? `${fixed(f.digital_zoom)} ×` : undefined],
    [n.taken, f.taken],
    [n.software, f.software],
    [n.guide, guide?.name],
    [n.pair, polarised?.name],
  ];
  const version = reading.value?.report.version;
  return (
    <details class="facts">
      <summary>{t.facts}</summary>
      <dl>
        {rows.map(([name, value]) => value && [<dt key={name}>{name}</dt>, <dd key={`${name} value`}>{value}</dd>])}
      </dl>
      {guide?.note && <p>{engineWords(guide.note)}</p>}
      {polarised && (
        <button type="button" onClick={removePolarised}>
          {t.removePair}
        </button>
      )}
      {version && <p>{t.version(version)}</p>}
    </details>
  );
}
