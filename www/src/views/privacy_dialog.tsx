/** What is kept where, what a case file holds, and the way to erase it all. */
import { newVersion, programCopy } from '../state/offline';
import { words } from '../words';
import { Erase } from './privacy_erase';
import { UseNewVersion } from './privacy_version';

const KEPT = [
  ['cases', 'database'],
  ['settings', 'local'],
  ['swatches', 'both'],
  ['program', 'copy'],
] as const;

export function PrivacyDialog() {
  const t = words.privacy;
  const file = programCopy.value === 'file';
  return (
    <>
      <p>{t.stays}</p>
      <p>{t.hand}</p>
      <table class="key-table kept-table">
        <caption>{t.kept}</caption>
        <thead class="unseen">
          <tr>
            <th scope="col">{t.what}</th>
            <th scope="col">{t.where}</th>
          </tr>
        </thead>
        <tbody>
          {KEPT.filter(([what]) => !(file && what === 'program')).map(([what, where]) => (
            <tr key={what}>
              <td>{t.places.texts[what]}</td>
              <td>{t.inBrowser.texts[where]}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>{t.program.texts[programCopy.value]}</p>
      {newVersion.value && (
        <section class="chips" aria-labelledby="new-version-here">
          <p id="new-version-here">
            <strong>{words.offline.newHere}</strong> {words.offline.newFile}
          </p>
          <UseNewVersion />
        </section>
      )}
      <p class="hint">{t.who}</p>
      <section>
        <h3>{t.inCase}</h3>
        <p>{t.caseHolds}</p>
      </section>
      <Erase />
    </>
  );
}
