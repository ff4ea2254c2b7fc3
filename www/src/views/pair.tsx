/** The pair in words, and what glare did to the value, third by third. */
import { fixed } from '../charts/format';
import { THIRDS, type Report, type ZoneReading } from '../engine/types';
import { lay, layFound, paired } from '../state/pair';
import type { Lay } from '../state/lay';
import { reading } from '../state/reading';
import { photoRetake, sheet } from '../state/sheet';
import { retakeOf } from '../state/sheet_model';
import { scene } from '../state/desk';
import { words } from '../words';

/** Less than a tenth of an L* is nothing to speak of. */
const MIN_RAISED = 0.05;
const MIN_TURN_DEG = 0.05;

export function layInWords({ x_px, y_px, turn_deg, scale }: Lay): string {
  const t = words.pair;
  const turned = Math.abs(turn_deg) < MIN_TURN_DEG ? t.notTurned : t.turned(fixed(Math.abs(turn_deg)), turn_deg > 0);
  return [t.moved(fixed(Math.abs(x_px), 0), x_px >= 0, fixed(Math.abs(y_px), 0), y_px >= 0), turned, t.sized(fixed(scale * 100))].join(', ');
}

export function PairNote() {
  const report = reading.value?.report;
  if (!paired.value || !report) return null;
  const t = words.pair;
  const byHand = scene.value.pair_transform !== undefined;
  return (
    <section class="pair-note">
      <h2>{t.title}</h2>
      <p>{layFound.value ? `${byHand ? t.laidByHand : t.laidAuto} ${layInWords(lay.value)}` : t.notLaid}</p>
    </section>
  );
}

export const raisedInWords = ({ glare_value }: ZoneReading): string =>
  glare_value < MIN_RAISED ? words.pair.notRaised : words.pair.raised(fixed(glare_value));

function Cell({ z }: { z: ZoneReading | undefined }) {
  if (!z) return <td>–</td>;
  const t = words.pair;
  return (
    <td>
      {raisedInWords(z)}
      {!z.glare_measured && <small>{t.estimated}</small>}
      {z.value_polarised !== undefined && <strong>{t.value(fixed(z.value_polarised))}</strong>}
    </td>
  );
}

/** Under the axis sheet, in its order: a row per third, a column per picture. */
export function GlareTable({ report }: { report: Report }) {
  const t = words.pair;
  const pictures = sheet.value?.pictures.filter(({ region }) => !retakeOf(report.checks, region.id)) ?? [];
  if (!report.pair || pictures.length === 0 || photoRetake.value) return null;
  const zonesOf = (id: string) => report.readings.find((r) => r.region === id)?.zones;
  return (
    <div class="glare-table">
      <h3>{t.glareTitle}</h3>
      <div class="scroll-x" tabIndex={0} role="region" aria-label={t.glareTitle}>
        <table>
          <caption>{t.glareCaption}</caption>
          <thead>
            <tr>
              <td />
              {pictures.map(({ region }) => (
                <th scope="col" key={region.id}>
                  {words.names.region(scene.value, region.id)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {THIRDS.map((zone) => (
              <tr key={zone}>
                <th scope="row">{words.names.zoneShort[zone]}</th>
                {pictures.map(({ region }) => (
                  <Cell key={region.id} z={zonesOf(region.id)?.[zone]} />
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </div>
  );
}
