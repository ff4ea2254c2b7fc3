/** A new case, from the menu. */
import { say } from '../../state/status';
import { words } from '../../words';

export async function beginCase(): Promise<void> {
  const { newCase } = await import('../../state/case/current');
  const hindered = await newCase();
  if (hindered) say(words.cases.hindered.texts[hindered]);
}
