/** The plan laid over the photo: the restoration as predicted, on the left of the line. */
import { divider, onPhoto, patch, showOnPhoto } from '../state/stains/plan_pictures';
import { view } from '../state/ui';
import { patchTransform } from './geometry';
import { Pixels } from '../views/pixels';
import { Divider } from '../views/plan/divider';
import { words } from '../words';

export function PlanCanvas() {
  const laid = onPhoto.value ? patch.value : null;
  if (!laid) return null;
  const { k, x, y } = view.value;
  const [left, top, width, height] = laid.place;
  const at = divider.value;
  return (
    <>
      <Pixels picture={laid} class="over plan-patch" style={{ transform: patchTransform(view.value, laid), clipPath: `inset(0 ${100 - at}% 0 0)` }} />
      {at > 0 && at < 100 && <span class="divider-line" style={{ left: `${x + (left + (width * at) / 100) * k}px`, top: `${y + top * k}px`, height: `${height * k}px` }} />}
    </>
  );
}

export function PlanBar() {
  if (!onPhoto.value) return null;
  return (
    <div class="selection-bar plan-bar" role="group" aria-label={words.plan.onPhoto}>
      <Divider />
      <button type="button" onClick={() => showOnPhoto(false)}>{words.plan.onPhotoNo}</button>
    </div>
  );
}
