/** Who is compared with whom: any outline of any open photo. */
import type { RegionKind } from '../../engine/types';
import { choose, exchange, openOnes, sides } from '../../state/compare/compare';
import { SIDES, type Side } from '../../state/compare/compare_model';
import { words } from '../../words';

/** What is likely meant comes first. */
const ORDER: Record<Side, readonly RegionKind[]> = { restoration: ['restoration', 'tooth', 'tab'], target: ['tooth', 'restoration', 'tab'] };

function Choice({ side }: { side: Side }) {
  const now = sides.value[side];
  const pick = (value: string) => {
    const [handle = '', ...id] = value.split(' ');
    choose(side, Number(handle), id.join(' '));
  };
  return (
    <label>
      {words.compare.choose[side]}
      <select id={`compare-${side}`} value={now ? `${now.of.photo.handle} ${now.region.id}` : ''} onChange={(e) => pick(e.currentTarget.value)}>
        {openOnes.value.map(({ photo, made: { scene } }) => (
          <optgroup key={photo.handle} label={words.photo.shown(photo.name)}>
            {ORDER[side].flatMap((kind) => scene.regions.filter((r) => r.kind === kind)).map(({ id }) => (
              <option key={id} value={`${photo.handle} ${id}`}>
                {words.names.region(scene, id)}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
      <small>{now && words.photo.shown(now.of.photo.name)}</small>
    </label>
  );
}

export function CompareChoice() {
  return (
    <div class="compare-choice">
      {SIDES.map((side) => (
        <Choice key={side} side={side} />
      ))}
      <button type="button" onClick={exchange}>
        {words.compare.exchange}
      </button>
    </div>
  );
}
