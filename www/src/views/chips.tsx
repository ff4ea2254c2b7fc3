/** Colours side by side on the neutral surround, touching each other. */
import { cssOf } from '../charts/srgb';
import type { Lab } from '../engine/types';

export function Chips({ labs, label }: { labs: readonly Lab[]; label: string }) {
  return (
    <span class="colour-chips" role="img" aria-label={label}>
      {labs.map((lab, i) => (
        <span key={i} style={{ background: cssOf(lab) }} />
      ))}
    </span>
  );
}
