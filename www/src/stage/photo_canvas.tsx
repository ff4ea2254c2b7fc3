/** The reduced copy of the photo, drawn for the eye and placed by the view. Nothing is measured here. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import { photo } from '../state/desk';
import { imageData, previews } from '../state/previews';
import { view } from '../state/ui';

export function PhotoCanvas() {
  const canvas = useRef<HTMLCanvasElement>(null);
  const open = photo.value;
  const preview = open && previews.of(open);

  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (preview && context) context.putImageData(imageData(preview), 0, 0);
  }, [preview]);

  if (!open || !preview) return null;
  const { k, x, y } = view.value;
  const scale = (k * open.info.width) / preview.width;
  return (
    <canvas
      ref={canvas}
      class="photo"
      width={preview.width}
      height={preview.height}
      style={{ transform: `translate(${x}px, ${y}px) scale(${scale})` }}
      aria-hidden="true"
    />
  );
}
