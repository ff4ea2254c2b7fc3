/** While the line of a cut is laid: cut there, turn it, or leave it. */
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { cutAlong, cutLine, endCut, startCut } from '../state/cut';
import { words } from '../words';

export function CutButtons() {
  const t = words.found;
  const across = useSignal(true);
  // For those who came by keyboard: the line is the next thing to move.
  useEffect(() => document.getElementById('cut-end-0')?.focus(), []);
  const turn = () => {
    across.value = !across.value;
    startCut(across.value);
  };
  return (
    <div class="bar-row">
      <button type="button" class="primary" onClick={() => cutLine.value && void cutAlong(cutLine.value)}>
        {t.cutHere}
      </button>
      <button type="button" onClick={turn}>
        {t.cutTurn}
      </button>
      <button type="button" onClick={endCut}>
        {t.cutKeep}
      </button>
    </div>
  );
}
