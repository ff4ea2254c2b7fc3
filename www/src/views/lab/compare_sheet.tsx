/** The two along one axis: straightened pictures, then columns that share their height. */
import { useSignal } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { THIRDS } from '../../engine/types';
import { compareProblem, differences, thirdPairs } from '../../state/compare/compare';
import { inOnePhoto, seriesOf, SIDES } from '../../state/compare/compare_model';
import { words } from '../../words';
import { Curves } from '../sheet/curves';
import { Reasons, type Said } from './compare_reasons';
import { nameOf, Teeth, type Both } from './compare_teeth';
import { Difference, Nearest } from './compare_third';

/** On a phone: one column beside the pictures, which stay. */
const columnWidth = (scroller: HTMLElement): number => Math.max(1, scroller.clientWidth - (scroller.querySelector<HTMLElement>('.teeth')?.offsetWidth ?? 0));

/** `waiting`: what is still being read. */
export function CompareSheet({ both, waiting }: { both: Both; waiting: readonly Said[] }) {
  const scroller = useRef<HTMLDivElement>(null);
  const shown = useSignal(0);
  const t = words.compare;
  // The bands of the curves are those of one photo; across two they would promise too much.
  const one = inOnePhoto(both.restoration, both.target);
  const silent = waiting.length > 0 || thirdPairs.value.length === 0 || compareProblem.value !== null;
  const series = SIDES.flatMap((role) => seriesOf(both[role], role, nameOf(both[role])));
  const heads = [
    { column: 'difference', title: words.sheet.difference, hint: t.differenceHint(nameOf(both.restoration), nameOf(both.target)) },
    { column: 'nearest', title: t.nearest, hint: t.nearestHint },
    { column: 'value', title: words.sheet.value, hint: one ? words.sheet.valueHint : t.valueHint },
    { column: 'chroma', title: words.sheet.chroma, hint: one ? words.sheet.chromaHint : t.chromaHint },
  ];
  const stops = heads.filter(({ column }) => column !== 'nearest');
  const goTo = (at: number) => scroller.current?.scrollTo({ left: at * columnWidth(scroller.current) });
  const swiped = ({ currentTarget: at }: { currentTarget: HTMLElement }) => (shown.value = Math.round(at.scrollLeft / columnWidth(at)));
  return (
    <div class="axis-sheet compare-sheet">
      {!silent && (
        <div class="compare-stops" role="group" aria-label={words.sheet.columns}>
          {stops.map(({ column, title }, at) => (
            <button type="button" key={column} aria-pressed={at === shown.value} onClick={() => goTo(at)}>
              {title}
            </button>
          ))}
        </div>
      )}
      <div class="sheet-scroll" ref={scroller} onScroll={swiped} tabIndex={0} role="region" aria-label={t.sheet}>
        <div class={`sheet-grid compare-grid pictures-2 ${silent ? 'silent' : ''} ${one ? '' : 'across'}`}>
          <Teeth both={both} />
          {silent ? (
            <Reasons reasons={waiting} />
          ) : (
            <>
              {heads.map(({ column, title, hint }) => (
                <div key={column} class="head" data-column={column}>
                  <h3>{title}</h3>
                  <small>{hint}</small>
                  {column === 'difference' && <small class="also">{t.alsoNearest}</small>}
                </div>
              ))}
              <Curves series={series} quantity="value" />
              <Curves series={series} quantity="chroma" />
              {THIRDS.map((zone) => (
                <div key={zone} class="third" data-zone={zone} role="group" aria-label={words.names.zone[zone]}>
                  <div class="difference" data-delta-e={differences.value.get(zone)?.delta_e_00} data-doubt={differences.value.get(zone)?.doubt}>
                    <Difference zone={zone} scene={both.restoration.of.made.scene} />
                  </div>
                  <div class="nearest">
                    {SIDES.map((role) => (
                      <Nearest key={role} side={both[role]} role={role} zone={zone} />
                    ))}
                  </div>
                </div>
              ))}
            </>
          )}
          <div class="hairlines" aria-hidden="true" />
        </div>
      </div>
      <p class="strip-note">{t.strip}</p>
    </div>
  );
}
