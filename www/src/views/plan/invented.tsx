/** That a plan stands on invented values: those of the demo's stains, or of its photo. */
import type { Plan } from '../../engine/types';
import { demoSwatches } from '../../state/stains/book';
import { book } from '../../state/stains/work';
import { words } from '../../words';

export function Invented({ plan }: { plan: Plan }) {
  const own = demoSwatches(book.value, words.swatches.demoNote);
  if (plan.demo) return <p class="demo-line">{words.plan.demo}</p>;
  return own > 0 ? <p class="demo-line">{words.swatches.holdsDemo(own)}</p> : null;
}
