/** Every way to hand on what is read: as a file, as a picture, on paper. */
import { dialog } from '../../state/dialogs';
import { hasAllNumbers, hasNumbers, ownNumbers } from '../../state/exports/numbers';
import { printLab, printRecord } from '../../state/exports/paper';
import { saveAllCsv, saveAllJson, saveCgats, saveCsv, saveJson, savePicture } from './save';
import { words } from '../../words';

type Way = readonly [text: string, hint: string, act: () => unknown, can: boolean];

/** What is said of it stands on the page, which the dialog covers. */
function take(act: () => unknown): void {
  dialog.value = null;
  void act();
}

export function ExportsDialog() {
  const t = words.exports;
  const [numbers, all, read] = [hasNumbers(), hasAllNumbers(), ownNumbers() !== null];
  const groups: readonly (readonly [string, readonly Way[]])[] = [
    [t.groups.texts.numbers, [
      [words.menu.saveCsv, t.csv, saveCsv, numbers],
      [words.tray.csv, t.allCsv, saveAllCsv, all],
      [t.json, t.jsonHint, saveJson, read],
      [t.allJson, '', saveAllJson, all],
      [t.cgats, t.cgatsHint, saveCgats, numbers],
    ]],
    [t.groups.texts.picture, [[words.menu.savePicture, t.pictureHint, savePicture, read]]],
    [t.groups.texts.paper, [
      [t.record, t.recordHint, printRecord, numbers],
      [t.lab, t.labHint, printLab, numbers],
    ]],
  ];
  return (
    <>
      <p class="hint">{t.why}</p>
      {groups.map(([head, ways]) => (
        <section key={head} class="export-group">
          <h3>{head}</h3>
          <ul>
            {ways.map(([text, hint, act, can]) => (
              <li key={text}>
                <button type="button" disabled={!can} onClick={() => take(act)}>{text}</button>
                {hint && <p class="hint">{hint}</p>}
              </li>
            ))}
          </ul>
        </section>
      ))}
    </>
  );
}
