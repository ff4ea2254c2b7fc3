/** A shade guide from a table, CSV or CGATS; what had to be assumed is shown, not only read out. */
import { caseDesk } from '../../engine/case_instance';
import { desk } from '../../engine/instance';
import { words } from '../../words';
import { engineWords } from '../../words/engine';
import { change } from '../desk';
import { report } from '../problems';
import { problem, say, whileBusy } from '../status';

export async function openTable(file: Blob, name: string): Promise<void> {
  try {
    problem.value = null;
    const called = name.replace(/(\.cgats)?\.[^.]+$/i, '').slice(0, 60);
    const read = await whileBusy(words.busy.opening(name), (signal, onPhase) => caseDesk.guide(file, called, { signal, onPhase, tooLarge: words.exports.tableTooLarge }));
    if (!read) return say(words.status.cancelled);
    const guide = await desk.checkGuide(read.guide);
    change(words.edits.loadGuide(guide.name), { guide });
    say(words.status.guideLoaded(guide.name, guide.tabs.length));
    if (read.remarks.length) problem.value = { title: words.exports.guideRead(guide.name), text: read.remarks.map(engineWords).join(' '), advice: '' };
  } catch (error) {
    report(words.errors.guideFailed(name), error);
  }
}
