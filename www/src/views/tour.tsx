/** The tour: an outline around what is meant, and a few words beside it. The page stays usable. */
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { mode } from '../state/ui';
import { following, selectorOf, STATIONS, type Station } from '../state/tour_model';
import { goBack, goOn, isThere, leaveTour, touring } from '../state/tour';
import { words } from '../words';
import { focusOn } from './focus_on';

const calm = () => matchMedia('(prefers-reduced-motion: reduce)').matches;

interface Place {
  left: number;
  top: number;
  width: number;
  height: number;
}

const elementOf = (station: Station): Element | null => document.querySelector(selectorOf(station, isThere) ?? 'html:empty');

const same = (a: Place | null, b: Place) => a !== null && a.left === b.left && a.top === b.top && a.width === b.width && a.height === b.height;

/** Scrolls there, and follows it as long as the station is on show. */
function useFollowed(station: Station) {
  const place = useSignal<Place | null>(null);
  useEffect(() => {
    const element = elementOf(station);
    const fits = (element?.getBoundingClientRect().height ?? 0) < innerHeight / 2;
    element?.scrollIntoView({ block: fits ? 'center' : 'start', behavior: calm() ? 'auto' : 'smooth' });
    let frame = 0;
    const follow = () => {
      const rect = elementOf(station)?.getBoundingClientRect();
      if (rect && !same(place.peek(), rect)) place.value = { left: rect.left, top: rect.top, width: rect.width, height: rect.height };
      frame = requestAnimationFrame(follow);
    };
    follow();
    return () => cancelAnimationFrame(frame);
  }, [station]);
  return place.value;
}

/** Within the window, so that all four sides are seen. */
function ringOf({ left, top, width, height }: Place) {
  const [x0, y0] = [Math.max(4, left - 4), Math.max(4, top - 4)];
  const [x1, y1] = [Math.min(innerWidth - 4, left + width + 4), Math.min(innerHeight - 4, top + height + 4)];
  return x1 > x0 && y1 > y0 ? { left: `${x0}px`, top: `${y0}px`, width: `${x1 - x0}px`, height: `${y1 - y0}px` } : null;
}

function Panel({ at }: { at: number }) {
  const station = STATIONS[at]!;
  const place = useFollowed(station);
  const panel = useRef<HTMLElement>(null);
  const next = useRef<HTMLButtonElement>(null);
  useEffect(() => panel.current!.focus(), []);
  const t = words.tour;
  const said = t.stations.steps[station.name];
  const shown = STATIONS.filter((s) => selectorOf(s, isThere));
  const first = following(at, -1, isThere) === null;
  // It keeps out of the way: in the corner that lies opposite.
  const low = place !== null && (place.height > innerHeight / 2 || place.top + place.height / 2 < innerHeight / 2);
  const right = place !== null && place.left + place.width / 2 < innerWidth / 2;
  const ring = place && ringOf(place);
  const leave = () => {
    leaveTour();
    focusOn(mode.value);
  };
  return (
    <>
      {ring && <div class="tour-ring" style={ring} aria-hidden="true" />}
      <section
        ref={panel}
        class={`tour ${low ? 'low' : 'high'} ${right ? 'right' : 'left'}`}
        role="dialog"
        tabIndex={-1}
        aria-label={t.label}
        aria-describedby="tour-text"
        onKeyDown={(event) => event.key === 'Escape' && leave()}
      >
        <div id="tour-text" aria-live="polite">
          <h2>{said.title}</h2>
          <p>{said.text}</p>
          <small>{t.at(shown.indexOf(station) + 1, shown.length)}</small>
        </div>
        <div class="now-buttons">
          <button ref={next} type="button" class="primary" onClick={() => (following(at, 1, isThere) === null ? leave() : goOn())}>
            {following(at, 1, isThere) === null ? t.done : t.next}
          </button>
          <button type="button" disabled={first} onClick={() => (goBack(), following(at - 1, -1, isThere) === null && next.current?.focus())}>
            {t.back}
          </button>
          <button type="button" onClick={leave}>
            {t.leave}
          </button>
        </div>
      </section>
    </>
  );
}

export const Tour = () => (touring.value === null ? null : <Panel at={touring.value} />);
