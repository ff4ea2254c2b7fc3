/** What the selected region is, and whether it is the one that is compared with. */
import type { Region, RegionKind } from '../engine/types';
import { compareWith, setKind } from '../state/role_edit';
import { target } from '../state/sheet';
import { words } from '../words';

const KINDS = ['tooth', 'restoration', 'tab'] as const satisfies RegionKind[];

export function RoleButtons({ region }: { region: Region }) {
  const t = words.found;
  const compared = target.value === region.id;
  return (
    <div class="bar-row">
      <div class="segments" role="group" aria-label={t.roles}>
        {KINDS.map((kind) => (
          <button type="button" key={kind} aria-pressed={kind === region.kind} onClick={() => setKind(region.id, kind)}>
            {t.role[kind]}
          </button>
        ))}
      </div>
      {region.kind !== 'restoration' && (
        <button type="button" aria-pressed={compared} title={t.compareLong} onClick={() => compareWith(region.id)}>
          {t.compare} <span class="wide">{t.compareRest}</span>
        </button>
      )}
    </div>
  );
}
