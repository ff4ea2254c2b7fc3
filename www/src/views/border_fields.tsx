/** The borders of the thirds as numbers. */
import type { Region } from '../engine/types';
import { bordersOf, hasOwnThirds, SHORTEST, withBorder, withEvenThirds } from '../state/borders';
import { changeScene } from '../state/desk';
import { words } from '../words';
import { NumberField } from './number_field';

const PERCENT = 100;

export function BorderFields({ region }: { region: Region }) {
  const t = words.found.borders;
  const borders = bordersOf(region);
  const limits: [number, number][] = [
    [SHORTEST, borders[1] - SHORTEST],
    [borders[0] + SHORTEST, 1 - SHORTEST],
  ];
  return (
    <fieldset class="borders">
      <legend>{t.title}</legend>
      <div class="fields">
        {([0, 1] as const).map((which) => (
          <NumberField
            key={which}
            value={borders[which] * PERCENT}
            visible={t.names[which]!}
            label={t.names[which]!}
            min={Math.round(limits[which]![0] * PERCENT)}
            max={Math.round(limits[which]![1] * PERCENT)}
            step={1}
            put={(n) => changeScene(words.edits.moveBorder, (s) => withBorder(s, region.id, which, n / PERCENT), `type ${region.id} border ${which}`)}
          />
        ))}
        <button type="button" disabled={!hasOwnThirds(region)} onClick={() => changeScene(words.edits.evenThirds, (s) => withEvenThirds(s, region.id))}>
          {t.even}
        </button>
      </div>
    </fieldset>
  );
}
