/** The tray: every open photo with what is known of it. */
import { hasAllNumbers } from '../../state/exports/numbers';
import { saveAllCsv } from '../exports/save';
import { pickPhotos } from '../actions';
import { doc } from '../../state/desk';
import { incoming, opening } from '../../state/tray/incoming';
import { openPhotos } from '../../state/tray/laid';
import { progress } from '../../state/tray/report_of';
import { words } from '../../words';
import { CompareView } from './compare';
import { Notes } from './notes';
import { IncomingRow } from './tray_incoming';
import { PhotoRow } from './tray_row';

function Opening() {
  const now = opening.value;
  if (!now) return null;
  const t = words.tray;
  const label = t.openingOf(now.at, now.of, now.name);
  return (
    <div class="tray-opening" role="group" aria-label={label}>
      <span>{label}</span>
      <progress aria-label={label} value={now.at - 1} max={now.of} />
      <button type="button" aria-label={t.cancelLong} onClick={now.cancel}>{words.busy.cancel}</button>
    </div>
  );
}

export function TrayView() {
  const t = words.tray;
  const photos = openPhotos(doc.value);
  const { read, of } = progress();
  const any = photos.length + incoming.value.length > 0;
  return (
    <section class="panel tray" id="photos" tabIndex={-1} aria-label={t.title}>
      <p class="hint">{t.why}</p>
      <div class="tray-add">
        <button type="button" class="primary" onClick={pickPhotos}>{t.add}</button>
        <span>{t.drop}</span>
      </div>
      <Opening />
      {!any && <p class="waiting">{t.none}</p>}
      {of > 1 && <p class="tray-progress">{t.progress(read, of)}</p>}
      {any && (
        <ul class="tray-list">
          {photos.map((laid) => <PhotoRow key={laid.photo.handle} laid={laid} />)}
          {incoming.value.map((one) => <IncomingRow key={one.name + one.state} one={one} />)}
        </ul>
      )}
      {photos.length > 0 && <button type="button" disabled={!hasAllNumbers()} onClick={saveAllCsv}>{t.csv}</button>}
      <CompareView />
      <Notes />
    </section>
  );
}
