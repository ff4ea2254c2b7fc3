/** A file on its way to the tray, or one that could not be opened. */
import { dismiss } from '../../state/tray/add';
import type { Incoming } from '../../state/tray/incoming';
import { words } from '../../words';
import { focusOn } from '../focus_on';

export function IncomingRow({ one }: { one: Incoming }) {
  const t = words.tray;
  const failed = one.state === 'failed';
  const off = () => {
    dismiss(one);
    focusOn('photos');
  };
  return (
    <li class="tray-row">
      <div class="thumb" aria-hidden="true" />
      <div class="tray-said">
        <h2>{one.name}</h2>
        <p>{one.state === 'failed' ? t.state.unopened(one.why) : t.state[one.state]}</p>
      </div>
      <div class="tray-acts">
        {failed && <button type="button" aria-label={t.offLong(one.name)} onClick={off}>{t.off1}</button>}
      </div>
    </li>
  );
}
