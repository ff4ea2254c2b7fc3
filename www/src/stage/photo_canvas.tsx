/** The reduced copy of the photo, drawn for the eye and placed by the view. Nothing is measured here. */
import { photo } from '../state/desk';
import { previews } from '../state/previews';
import { view } from '../state/ui';
import { Pixels } from '../views/pixels';

export function PhotoCanvas() {
  const open = photo.value;
  const preview = open && previews.of(open);
  if (!open || !preview) return null;
  const { k, x, y } = view.value;
  const scale = (k * open.info.width) / preview.width;
  return <Pixels picture={preview} class="photo" style={{ transform: `translate(${x}px, ${y}px) scale(${scale})` }} />;
}
