/** The plan laid over the photo: the restoration as predicted, on the left of the line. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { imageData } from '../state/previews';
import { divider, onPhoto, patch, showOnPhoto } from '../state/stains/plan_pictures';
import { view } from '../state/ui';
import { Divider } from '../views/plan/divider';
import { words } from '../words';

export function PlanCanvas() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const laid = onPhoto.value ? patch.value : null;
  useLayoutEffect(() => {
    if (laid) canvas.current?.getContext('2d')?.putImageData(imageData(laid), 0, 0);
  }, [laid]);
  if (!laid) return null;
  const { k, x, y } = view.value;
  const [left, top, width, height] = laid.place;
  const at = divider.value;
  return (
    <>
      <canvas
        ref={canvas}
        class="over plan-patch"
        width={laid.width}
        height={laid.height}
        aria-hidden="true"
        style={{ transform: `translate(${x + left * k}px, ${y + top * k}px) scale(${(width * k) / laid.width}, ${(height * k) / laid.height})`, clipPath: `inset(0 ${100 - at}% 0 0)` }}
      />
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
