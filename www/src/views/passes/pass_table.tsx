/** One fired pass in numbers and on lanes: before, predicted, what came out, and what is left. */
import { fixed } from '../../charts/format';
import { LadderAxis } from '../../charts/ladder_lane';
import { passEnd, PassLane } from '../../charts/pass_lane';
import { THIRDS } from '../../engine/types';
import type { KeptPass } from '../../state/passes/kept_pass';
import { words } from '../../words';
import { EvennessTable } from '../evenness';
import { useSize } from '../use_size';
import { labText } from './unfired';

const GUTTER_PX = 84;

export function PassLanes({ kept }: { kept: KeptPass }) {
  const { ref, width } = useSize<HTMLDivElement>();
  const t = words.passes;
  const { zones } = kept.review;
  const end = passEnd(zones.flatMap((z) => [z.before_delta_e_00, z.left_delta_e_00]));
  const lane = Math.max(width - GUTTER_PX, 140);
  return (
    <div class="pass-lanes" ref={ref}>
      <h3>{t.ways}</h3>
      {width > 0 && (
        <div class="pass-row axis">
          <span />
          <LadderAxis end={end} width={lane} seen={words.sheet.ladder.seen} accept={words.sheet.ladder.accept} />
        </div>
      )}
      {width > 0 &&
        zones.map((z) => (
          <div key={z.zone} class="pass-row">
            <span>
              {words.names.zoneShort[z.zone]} <strong>{fixed(z.left_delta_e_00)}</strong>
            </span>
            <PassLane
              before={z.before_delta_e_00}
              left={z.left_delta_e_00}
              doubt={kept.pass.zones.find((p) => p.zone === z.zone)?.doubt ?? 0}
              end={end}
              width={lane}
              label={t.way(words.names.zone[z.zone], fixed(z.before_delta_e_00), fixed(z.left_delta_e_00))}
            />
          </div>
        ))}
      <p class="legend">
        <span class="dot" /> {t.waysKey.before} <span class="dot in-photo" /> {t.waysKey.left}
      </p>
    </div>
  );
}

export function PassTable({ kept, n }: { kept: KeptPass; n: number }) {
  const t = words.passes;
  return (
    <div class="scroll-x" tabIndex={0} role="region" aria-label={t.table(n)}>
      <table class="pass-table">
        <caption>{t.table(n)}</caption>
        <thead>
          <tr>
            {t.heads.map((head) => (
              <th scope="col" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {kept.pass.zones.map((z) => {
            const seen = kept.review.zones.find((r) => r.zone === z.zone);
            return (
              <tr key={z.zone} data-zone={z.zone}>
                <th scope="row">{words.names.zoneShort[z.zone]}</th>
                <td>{labText(z.before)}</td>
                <td>
                  {labText(z.predicted)} <small>{t.plusMinus(fixed(z.predicted_doubt))}</small>
                </td>
                <td>{labText(z.got)}</td>
                <td>{labText(z.target)}</td>
                <td data-left={seen?.left_delta_e_00}>
                  <strong>{seen && fixed(seen.left_delta_e_00)}</strong> <small>{t.plusMinus(fixed(z.doubt))}</small>
                </td>
                <td>
                  {seen && fixed(seen.miss_delta_e_00)} <small>{t.plusMinus(fixed(Math.hypot(z.predicted_doubt, z.doubt)))}</small>
                  <small>{seen && (seen.as_predicted ? t.asPredicted : t.notAsPredicted)}</small>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

/** How even it was before, came out, and the target is. */
export function PassEvenness({ kept }: { kept: KeptPass }) {
  const t = words.evenness;
  const of = (what: 'before' | 'after' | 'target') => ({ key: what, name: t.pass[what], blotch: Object.fromEntries(THIRDS.map((zone) => [zone, kept.blotch[zone]?.[what]])) });
  const columns = (['before', 'after', 'target'] as const).map(of).filter(({ blotch }) => Object.values(blotch).some((v) => v !== undefined));
  return columns.length > 0 ? <EvennessTable columns={columns} zones={THIRDS} /> : null;
}
