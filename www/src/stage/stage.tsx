/** The photo with everything drawn over it. */
import { useEffect, useRef } from 'preact/hooks';
import { photo } from '../state/desk';
import { onPhoto } from '../state/stains/plan_pictures';
import { adjusting, stageSize, tool } from '../state/ui';
import { later } from '../views/later';
import { words } from '../words';
import { setControls, zoomControls } from './controls';
import { centreCross, cross, stageKey } from './keys';
import { Overlay } from './overlay';
import { LayBar, PairButtons } from './pair_bar';
import { MapCanvas, MapNote } from './map_canvas';
import { PairCanvas } from './pair_canvas';
import { PhotoCanvas } from './photo_canvas';
import { PlanBar, PlanCanvas } from './plan_canvas';
import { SelectionBar } from './selection_bar';
import { attachTaps } from './taps';
import { ViewButtons } from './view_buttons';
import { attachZoom } from './zoom';

const NotePins = later('NotePins');

export function Stage() {
  const element = useRef<HTMLDivElement>(null);
  const open = photo.value;

  useEffect(() => {
    const stage = element.current!;
    const controls = attachZoom(stage);
    const detachTaps = attachTaps(stage);
    const measure = new ResizeObserver(() => {
      const { clientWidth: width, clientHeight: height } = stage;
      if (width > 0) controls.resize({ width, height });
    });
    measure.observe(stage);
    setControls(controls);
    return () => {
      measure.disconnect();
      detachTaps();
      controls.stop();
      setControls(null);
    };
  }, []);

  useEffect(() => {
    if (open) zoomControls()?.bound(open.info);
  }, [open]);

  const label = adjusting.value ? words.stage.labelAdjust : tool.value === 'look' ? words.stage.label : words.stage.labelTool(words.names.tool(tool.value));
  return (
    <section class="stage-frame" aria-label={words.views.photo}>
      <div>
        <ViewButtons />
        <PairButtons />
      </div>
      <div class="stage-area">
        <div
          ref={element}
          class={`stage tool-${tool.value}`}
          tabIndex={0}
          role="application"
          aria-label={label}
          onKeyDown={(event) => stageKey(event, zoomControls())}
          onFocus={(event) => event.currentTarget.matches(':focus-visible') && stageSize.value.width > 0 && centreCross()}
          onBlur={() => (cross.value = null)}
        >
          <PhotoCanvas />
          <PairCanvas />
          <PlanCanvas />
          <MapCanvas />
          <Overlay />
          <NotePins />
        </div>
        {!adjusting.value && !onPhoto.value && <SelectionBar />}
        <PlanBar />
        <LayBar />
        <MapNote />
      </div>
    </section>
  );
}
