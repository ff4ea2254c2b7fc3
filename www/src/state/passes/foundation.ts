/** What a foundation of glaze makes of the colours before: the stains were laid on that. */
import { desk } from '../../engine/instance';
import type { Lab, Pass, SwatchBook } from '../../engine/types';
import type { ByThird, Third } from './frame';

/** The colours under the stains; none where no foundation was laid, or the glaze is not known. */
export async function underStains(book: SwatchBook, { foundation, zones }: Pass): Promise<ByThird<Lab>> {
  const glaze = book.stains.find((s) => s.glaze && !s.resting && book.swatches.some(({ stain }) => stain === s.name));
  if (!foundation || !glaze) return {};
  const answers = await desk.stains.predict(book, zones.map(({ zone, before }) => ({ id: zone, base: before, mix: { [glaze.name]: 1 }, coats: 1 })));
  return Object.fromEntries(answers.map(({ id, lab }) => [id as Third, lab]));
}
