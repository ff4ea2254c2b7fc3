/** Every number of every outline, in one table. */
import { fixed, grouped, percent } from '../charts/format';
import { ZONES, type RegionReading, type Zone, type ZoneReading } from '../engine/types';
import type { TermName } from '../state/explained';
import { reading } from '../state/reading';
import { photoRetake } from '../state/sheet';
import { retakeOf } from '../state/sheet_model';
import { words } from '../words';
import { Depth } from './depth';
import { Term } from './help_term';

function Numbers({ z, polarised }: { z: ZoneReading; polarised: boolean }) {
  const [l, a, b] = z.lab;
  const cells: [string, string][] = [
    ['l', fixed(l)],
    ['a', fixed(a)],
    ['b', fixed(b)],
    ['c', fixed(z.chroma)],
    ['h', fixed(z.hue_deg)],
    ['doubt', fixed(z.doubt)],
    ['doubt-in-photo', fixed(z.doubt_in_photo)],
    ['pixels', grouped(z.pixels)],
    ['blotch', z.blotch === undefined ? '' : fixed(z.blotch)],
    ['glare', percent(z.glare)],
    ['raised', fixed(z.glare_value)],
  ];
  if (polarised) cells.push(['polarised', z.value_polarised === undefined ? '' : fixed(z.value_polarised)]);
  return (
    <>
      {cells.map(([key, text]) => (
        <td key={key} data-number={key}>
          {text}
          {key === 'blotch' && z.blotch !== undefined && <small> {words.evenness.word(z.blotch)}</small>}
          {key === 'raised' && <small> {words.numbers.raisedBy[z.glare_measured ? 'measured' : 'estimated']}</small>}
        </td>
      ))}
    </>
  );
}

function Rows({ item, polarised, name }: { item: RegionReading; polarised: boolean; name: string }) {
  const t = words.numbers;
  const current = reading.value!;
  const distrust = retakeOf(current.report.checks, item.region);
  const zones: readonly Zone[] = distrust ? ['whole'] : ZONES;
  return (
    <tbody data-region={item.region}>
      {zones.map((zone, i) => {
        const z = distrust ? undefined : item.zones[zone];
        return (
          <tr key={zone} data-zone={zone}>
            {i === 0 && (
              <th scope="rowgroup" rowSpan={zones.length}>
                {name}
              </th>
            )}
            <th scope="row">{words.names.zoneShort[zone]}</th>
            {z ? <Numbers z={z} polarised={polarised} /> : <td colSpan={polarised ? 12 : 11}>{t.none(distrust ? words.names.said(current.doc.scene, distrust.text) : t.tooFew)}</td>}
          </tr>
        );
      })}
    </tbody>
  );
}

export function NumbersTable() {
  const current = reading.value;
  if (!current || current.report.readings.length === 0 || photoRetake.value) return null;
  const t = words.numbers;
  const polarised = current.report.pair !== undefined && current.report.pair !== null;
  const explained: Record<string, TermName> = { [t.l]: 'value', [t.c]: 'chroma', [t.h]: 'hue', [t.doubt]: 'doubt' };
  const heads = [t.l, t.a, t.b, t.c, t.h, t.doubt, t.doubtInPhoto, t.pixels, t.blotch, t.glare, t.raised, ...(polarised ? [t.polarised] : [])];
  return (
    <Depth name="numbers" title={t.title}>
      <p class="caption" id="numbers-caption">
        {t.caption}
      </p>
      <div class="scroll-x" tabIndex={0} role="region" aria-label={t.title}>
        <table aria-describedby="numbers-caption">
          <thead>
            <tr>
              <th scope="col">{t.region}</th>
              <th scope="col">{t.zone}</th>
              {heads.map((h) => (
                <th scope="col" key={h}>
                  {explained[h] ? <Term name={explained[h]}>{h}</Term> : h}
                </th>
              ))}
            </tr>
          </thead>
          {current.report.readings.map((item) => (
            <Rows key={item.region} item={item} polarised={polarised} name={words.names.region(current.doc.scene, item.region)} />
          ))}
        </table>
      </div>
    </Depth>
  );
}
