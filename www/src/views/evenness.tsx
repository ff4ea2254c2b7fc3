/** How even the surfaces are, third by third, side by side; and the switch for the map on the photo. */
import { ZONES, type Zone } from '../engine/types';
import { scene } from '../state/desk';
import { reading } from '../state/reading';
import { photoRetake, sheet } from '../state/sheet';
import { retakeOf } from '../state/sheet_model';
import { words } from '../words';
import { Depth } from './depth';

export interface EvennessColumn {
  key: string;
  name: string;
  blotch: Partial<Record<Zone, number | undefined>>;
}

export function EvennessTable({ columns, zones = ZONES }: { columns: readonly EvennessColumn[]; zones?: readonly Zone[] }) {
  const t = words.evenness;
  return (
    <div class="evenness-table">
      <p class="caption">{t.caption}</p>
      <table aria-label={t.title}>
        <thead>
          <tr>
            <td />
            {columns.map(({ key, name }) => (
              <th scope="col" key={key}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {zones.map((zone) => (
            <tr key={zone} data-zone={zone}>
              <th scope="row">{words.names.zoneShort[zone]}</th>
              {columns.map(({ key, blotch }) => (
                <td key={key}>{blotch[zone] === undefined ? '–' : t.short(blotch[zone])}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

export function Evenness() {
  const report = reading.value?.report;
  if (!report || photoRetake.value) return null;
  const columns = (sheet.value?.pictures ?? [])
    .filter(({ region }) => !retakeOf(report.checks, region.id))
    .flatMap(({ region }): EvennessColumn[] => {
      const zones = report.readings.find((r) => r.region === region.id)?.zones;
      if (!zones) return [];
      const blotch = Object.fromEntries(ZONES.map((zone) => [zone, zones[zone]?.blotch]));
      return [{ key: region.id, name: words.names.region(scene.value, region.id), blotch }];
    });
  if (columns.length === 0) return null;
  return (
    <Depth name="evenness" title={words.evenness.title}>
      <EvennessTable columns={columns} />
    </Depth>
  );
}
