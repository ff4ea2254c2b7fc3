/**
 * The axis sheet: straightened pictures side by side, everything else in columns that share their
 * vertical axis, the borders of the thirds drawn through all of them.
 */
import { useSignal } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { hasOwnThirds } from '../../state/borders';
import { scene } from '../../state/desk';
import { sheet } from '../../state/sheet';
import type { SheetModel } from '../../state/sheet_model';
import { words } from '../../words';
import type { TermName } from '../../state/explained';
import { Term } from '../help_term';
import { MapSwitches } from '../map_switches';
import { Choosers } from './choosers';
import { Curves } from './curves';
import { Picture, PictureFoot, PictureHead, ThirdsGutter, WholeGutter } from './picture';
import { Third } from './third';

function Teeth({ model }: { model: SheetModel }) {
  return (
    <>
      <div class="teeth-head teeth-row">
        <span class="gutter" />
        {model.pictures.map((p) => (
          <PictureHead key={p.region.id} {...p} curved={model.series.some((s) => s.id === p.region.id)} />
        ))}
      </div>
      <div class="teeth teeth-row">
        <ThirdsGutter />
        {model.pictures.map(({ region }) => (
          <Picture key={region.id} region={region} />
        ))}
      </div>
      <div class="teeth-foot teeth-row">
        <WholeGutter />
        {model.pictures.map(({ region }) => (
          <PictureFoot key={region.id} region={region} />
        ))}
      </div>
    </>
  );
}

interface HeadProps {
  column: string;
  title: string;
  hint?: string | undefined;
  /** The word that explains itself. */
  term?: TermName;
  /** What else stands in the column where it is narrow. */
  also?: string | undefined;
}

function Head({ column, title, hint, term, also }: HeadProps) {
  return (
    <div class="head" data-column={column}>
      <h3>{term ? <Term name={term}>{title}</Term> : title}</h3>
      {hint && <small>{hint}</small>}
      {also && <small class="narrow-only">{also}</small>}
    </div>
  );
}

/** Where a narrow sheet stops: its answer, then its curves. */
const STOPS = ['nearest', 'value', 'chroma'];

/** How far the sheet is scrolled when a column stands beside the teeth. */
function columnLeft(scroller: HTMLElement, column: string): number {
  const head = scroller.querySelector<HTMLElement>(`[data-column=${column}]`);
  const teeth = scroller.querySelector<HTMLElement>('.teeth');
  return (head?.offsetLeft ?? 0) - (teeth?.offsetWidth ?? 0);
}

export function AxisSheet() {
  const scroller = useRef<HTMLDivElement>(null);
  const shown = useSignal('nearest');
  const model = sheet.value;
  if (!model || model.pictures.length === 0) return null;
  const t = words.sheet;
  const idOf = (role: string) => model.pictures.find((p) => p.role === role)?.region.id;
  const [target, restoration] = [idOf('target'), idOf('restoration')];
  const judging = target !== undefined && restoration !== undefined;
  const against = judging ? t.differenceOf(words.names.region(scene.value, restoration), words.names.region(scene.value, target)) : undefined;
  const heads: HeadProps[] = [
    { column: 'nearest', title: t.nearest, hint: model.subject && t.nearestTo(words.names.region(scene.value, model.subject.id)), also: against && t.andDifference(against) },
    ...(judging ? [{ column: 'difference', title: t.difference, hint: against, term: 'deltaE' as const }, { column: 'paint', title: t.paint }] : []),
    { column: 'value', title: t.value, hint: t.valueHint, term: 'value' as const },
    { column: 'chroma', title: t.chroma, hint: t.chromaHint, term: 'chroma' as const },
  ];
  const swipeTo = (column: string) => scroller.current?.scrollTo({ left: columnLeft(scroller.current, column) });
  const swiped = ({ currentTarget }: { currentTarget: HTMLElement }) => {
    const away = (column: string) => Math.abs(columnLeft(currentTarget, column) - currentTarget.scrollLeft);
    shown.value = STOPS.reduce((a, b) => (away(b) < away(a) ? b : a));
  };
  return (
    <section class="axis-sheet">
      <h2 class="unseen">{t.title}</h2>
      <div class="column-buttons" role="group" aria-label={t.columns}>
        {heads.filter(({ column }) => STOPS.includes(column)).map(({ column, title }) => (
          <button type="button" key={column} data-stop={column} aria-pressed={column === shown.value} onClick={() => swipeTo(column)}>
            {column === 'nearest' ? t.answer : column === 'chroma' ? title : [<span class="one">{title}</span>, <span class="both">{t.curves}</span>]}
          </button>
        ))}
      </div>
      <div class="sheet-scroll" ref={scroller} onScroll={swiped} tabIndex={0} role="region" aria-label={t.title}>
        <div class={`sheet-grid pictures-${model.pictures.length} ${judging ? 'judging' : 'choosing'}`}>
          <Teeth model={model} />
          {heads.map((head) => (
            <Head key={head.column} {...head} />
          ))}
          <Curves series={model.series} quantity="value" />
          <Curves series={model.series} quantity="chroma" />
          {model.rows.map((row) => (
            <Third key={row.zone} row={row} judging={judging} subject={model.subject !== undefined} />
          ))}
          <div class="hairlines" aria-hidden="true" />
        </div>
      </div>
      <p class="strip-note">
        {t.strip} {model.pictures.some((p) => hasOwnThirds(p.region)) && words.found.borders.stretched}
      </p>
      <Choosers model={model} />
      <MapSwitches />
    </section>
  );
}
