/** A picture of the engine on a canvas, pixel by pixel: for the eye only, nothing is measured on it. */
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { CSSProperties } from 'preact';
import type { Preview } from '../engine/types';
import { imageData } from '../state/previews';

type Picture = Pick<Preview, 'width' | 'height' | 'rgba'>;

export interface PixelsProps {
  picture: Picture;
  class?: string;
  style?: CSSProperties;
  /** Something else than the picture as it is. */
  draw?: (context: CanvasRenderingContext2D) => void;
}

export function Pixels({ picture, draw, ...rest }: PixelsProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  useLayoutEffect(() => {
    const context = canvas.current?.getContext('2d');
    if (!context) return;
    if (draw) draw(context);
    else context.putImageData(imageData(picture), 0, 0);
  }, [picture, draw]);
  return <canvas ref={canvas} width={picture.width} height={picture.height} aria-hidden="true" {...rest} />;
}
