/**
 * Stands in for the library's animated transitions and their way through space, which zooming would
 * otherwise bring along with colours, timers and easings: the stage never animates, so there is
 * nothing to interrupt and nothing to go through.
 */
import { selection } from 'd3-selection';

export function interrupt(): void {}

export function interpolateZoom(): never {
  throw new Error('The stage does not animate.');
}

Object.assign(selection.prototype, {
  interrupt(this: unknown) {
    return this;
  },
});
