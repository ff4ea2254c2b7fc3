/** A mix in parts, each stain beside its pattern in the bars. */
import { PatternSample } from '../../charts/coats_bar';
import type { CoatBar } from '../../charts/coats_layout';
import { words } from '../../words';

export function Mix({ bar: { strips, paint } }: { bar: CoatBar }) {
  const alone = strips.length === 1;
  return (
    <ul class="mix">
      {strips.map(({ stain, pattern }, i) => (
        <li key={stain}>
          <PatternSample pattern={pattern} />
          {alone ? stain : words.plan.part(paint.mix[i]!.parts, stain)}
        </li>
      ))}
    </ul>
  );
}
